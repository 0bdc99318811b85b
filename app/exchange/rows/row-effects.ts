/** What a row does to the plan, field by field, in words: "arrives 2031-02-20 → 2031-02-24". */
import type { Entity, EntityKind, EntitySet } from "../../entity/entities.ts";
import { byId } from "../../entity/entity-index.ts";
import type { Reading } from "../../ledger/journal.ts";
import { formatMass } from "../../format/mass.ts";
import { formatDate, formatMinute } from "../../format/time.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import type { FieldChange, RowEffect } from "./rows-preview.ts";

export type PlanRow = Entity<"flight"> | Entity<"sortie">;
type Fields = ReadonlyMap<string, string>;

const instantWords = (at: number): string => (at % DAY_MS === 0 ? formatDate(at) : formatMinute(at));
const daysWords = (days: number): string => `${Number(days.toFixed(3))} ${days === 1 ? "day" : "days"}`;

const nameIn = (
  entities: EntitySet,
  kind: "craft" | "depot" | "source" | "campaign" | "propellant",
  id: string,
): string => byId<Entity<EntityKind>>(entities[kind]).get(id)?.["name" as "id"] ?? id;

const originName = (entities: EntitySet, origin: Entity<"flight">["origin"]): string =>
  origin.kind === "source" ? nameIn(entities, "source", origin.sourceId) : nameIn(entities, "depot", origin.depotId);

const flightFields = (row: Entity<"flight">, entities: EntitySet): Fields =>
  new Map([
    ["name", row.name],
    ["tanker", nameIn(entities, "craft", row.craftId)],
    ["from", originName(entities, row.origin)],
    ["to", nameIn(entities, "depot", row.depotId)],
    ["departs", instantWords(row.departAt)],
    ["arrives", instantWords(row.arriveAt)],
    ["time at the port", daysWords(row.berthDays)],
    ...row.loads.map(
      (load) =>
        [
          `${nameIn(entities, "propellant", load.propellantId).toLowerCase()} loaded`,
          formatMass(load.loadedKg),
        ] as const,
    ),
    ["overflow", row.overflow],
    ["status", row.status],
    ["note", row.note],
  ]);

const demandFields = (
  demand: Entity<"sortie">["demand"],
  entities: EntitySet,
): readonly (readonly [string, string])[] => {
  if (demand.kind !== "stated") return [["demand", demand.kind === "class" ? "as its class" : "by its profile"]];
  return demand.lines.flatMap((line) => {
    const name = nameIn(entities, "propellant", line.propellantId).toLowerCase();
    return [
      [`${name} loaded`, formatMass(line.loadKg)] as const,
      [`${name} on return`, formatMass(line.returnKg)] as const,
    ];
  });
};

const sortieFields = (row: Entity<"sortie">, entities: EntitySet): Fields =>
  new Map([
    ["name", row.name],
    ["campaign", nameIn(entities, "campaign", row.campaignId)],
    ["lander", nameIn(entities, "craft", row.landerId)],
    ["depot", nameIn(entities, "depot", row.depotId)],
    ["loads", instantWords(row.loadAt)],
    ["returns", instantWords(row.returnAt)],
    ...demandFields(row.demand, entities),
    ["status", row.status],
    ["note", row.note],
  ]);

const fieldsOf = (row: PlanRow, entities: EntitySet): Fields =>
  "arriveAt" in row ? flightFields(row, entities) : sortieFields(row, entities);

/** A difference too small for the words is still one. */
const changesOf = (before: Fields, after: Fields): readonly FieldChange[] => {
  const changed = [...new Set([...before.keys(), ...after.keys()])].flatMap((field) => {
    const [old, now] = [before.get(field) ?? "", after.get(field) ?? ""];
    return old === now ? [] : [{ field, before: old === "" ? "none" : old, after: now === "" ? "none" : now }];
  });
  return changed.length > 0
    ? changed
    : [{ field: "a figure or time", before: "as it was", after: "finer than is shown" }];
};

const isEqual = (a: PlanRow, b: PlanRow): boolean => {
  // The order of properties is the schema's in both: they were parsed by it.
  return JSON.stringify(a) === JSON.stringify(b);
};

export const whatBecomes = (before: PlanRow | null, after: PlanRow): RowEffect["what"] => {
  if (before === null) return "new";
  return isEqual(before, after) ? "unchanged" : "changed";
};

export const planEffect = (
  line: number,
  what: RowEffect["what"],
  before: PlanRow | null,
  after: PlanRow,
  entities: EntitySet,
): RowEffect => {
  const now = fieldsOf(after, entities);
  if (before !== null) return { line, what, name: before.name, fields: changesOf(fieldsOf(before, entities), now) };
  const fields = [...now].filter(([field, value]) => field !== "name" && field !== "note" && value !== "");
  return {
    line,
    what,
    name: after.name,
    fields: fields.map(([field, value]) => ({ field, before: null, after: value })),
  };
};

export const readingEffect = (line: number, reading: Reading, tank: Entity<"tank"> | undefined): RowEffect => ({
  line,
  what: "new",
  name: tank?.name ?? reading.tankId,
  fields: [
    { field: "at", before: null, after: formatMinute(reading.at) },
    { field: "mass", before: null, after: formatMass(reading.massKg, "kg") },
    { field: "± 1 σ", before: null, after: formatMass(reading.sigmaKg, "kg") },
  ],
});

/** What of a flight or sortie that has left comes from the records, and is not changed by a table; null: nothing is touched. */
export const recordedFault = (before: PlanRow | null, after: PlanRow): string | null => {
  if (before === null || isEqual(before, after)) return null;
  const fixed = fixedFields[before.status];
  const touched = fixed?.find(
    (field) => JSON.stringify(before[field as keyof PlanRow]) !== JSON.stringify(after[field as keyof PlanRow]),
  );
  return touched === undefined
    ? null
    : `${before.name} has the status “${before.status}”: when it went and with what comes from the records. Reverse the record first, or leave the row out.`;
};

const whenItLeft = ["departAt", "craftId", "origin", "loads", "loadAt", "landerId", "demand", "status"];
const whenItCame = [...whenItLeft, "arriveAt", "returnAt", "depotId"];
const fixedFields: Readonly<Record<string, readonly string[]>> = {
  departed: whenItLeft,
  arrived: whenItCame,
  lost: whenItCame,
  flown: whenItCame,
  "stood down": ["status"],
};
