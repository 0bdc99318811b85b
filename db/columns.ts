/** How each kind of entity lies in its table. Derived from the entities, so that a forgotten property does not compile. */
import { type Entity, type EntityKind, entityKinds } from "../app/entity/entities.ts";

/** How a property is written: lists and unions are JSON text, booleans 0 or 1. */
type ColumnType<V> =
  NonNullable<V> extends boolean
    ? "boolean"
    : NonNullable<V> extends string
      ? "text"
      : NonNullable<V> extends number
        ? "integer" | "real"
        : "json";

type Columns<E> = { readonly [P in keyof E]-?: ColumnType<E[P]> };
export type AnyColumnType = "boolean" | "text" | "integer" | "real" | "json";

/** In the order in which an entity's properties are declared: the order of canonical text. */
export const entityColumns: { readonly [K in EntityKind]: Columns<Entity<K>> } = {
  propellant: {
    id: "text",
    name: "text",
    symbol: "text",
    fluid: "text",
    densityKgPerM3: "real",
    position: "integer",
  },
  depot: {
    id: "text",
    name: "text",
    orbit: "text",
    windowPeriodDays: "real",
    windowReferenceAt: "integer",
    ports: "integer",
    note: "text",
    windowList: "json",
    lunarOrbit: "json",
  },
  source: { id: "text", name: "text", kind: "text", note: "text", plant: "json" },
  craftClass: {
    id: "text",
    name: "text",
    role: "text",
    propellants: "json",
    tripDays: "real",
    berthDays: "real",
    note: "text",
    lander: "json",
    turnaroundDays: "real",
    costPerFlight: "real",
    costUnit: "text",
    hardwareKg: "real",
  },
  profile: {
    id: "text",
    classId: "text",
    name: "text",
    steps: "json",
    reserve: "json",
    note: "text",
    landing: "json",
  },
  craft: { id: "text", classId: "text", name: "text", note: "text", engineChanges: "json" },
  tank: {
    id: "text",
    ownerKind: "text",
    ownerId: "text",
    propellantId: "text",
    name: "text",
    volumeM3: "real",
    ullagePercent: "real",
    maximumFillKg: "real",
    heelKg: "real",
    reserveKg: "real",
    rank: "integer",
  },
  planCase: {
    id: "text",
    name: "text",
    basedOnId: "text",
    shortPolicy: "text",
    horizonAt: "integer",
    position: "integer",
    note: "text",
  },
  lossPeriod: {
    id: "text",
    tankId: "text",
    planCaseId: "text",
    fromAt: "integer",
    untilAt: "integer",
    basis: "json",
    reason: "text",
    note: "text",
  },
  campaign: {
    id: "text",
    planCaseId: "text",
    key: "text",
    name: "text",
    goal: "text",
    holdLimitDays: "real",
  },
  flight: {
    id: "text",
    planCaseId: "text",
    key: "text",
    name: "text",
    craftId: "text",
    origin: "json",
    depotId: "text",
    departAt: "integer",
    arriveAt: "integer",
    berthDays: "real",
    loads: "json",
    overflow: "text",
    status: "text",
    note: "text",
    lostAt: "integer",
  },
  sortie: {
    id: "text",
    planCaseId: "text",
    key: "text",
    campaignId: "text",
    landerId: "text",
    depotId: "text",
    name: "text",
    loadAt: "integer",
    returnAt: "integer",
    demand: "json",
    status: "text",
    note: "text",
    stoodDownAt: "integer",
  },
  riskInput: { id: "text", planCaseId: "text", uncertainty: "json", source: "text", note: "text" },
};

/** "windowPeriodDays" → "window_period_days", "densityKgPerM3" → "density_kg_per_m3". */
export const snakeCase = (name: string): string => name.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

export interface Column {
  readonly property: string;
  readonly column: string;
  readonly type: AnyColumnType;
}

export interface TableMap {
  readonly kind: EntityKind;
  readonly table: string;
  readonly columns: readonly Column[];
}

const tableOf = (kind: EntityKind): TableMap => ({
  kind,
  table: snakeCase(kind),
  columns: Object.entries(entityColumns[kind]).map(([property, type]) => ({
    property,
    column: snakeCase(property),
    type: type as AnyColumnType,
  })),
});

export const tables: ReadonlyMap<EntityKind, TableMap> = new Map(entityKinds.map((kind) => [kind, tableOf(kind)]));
