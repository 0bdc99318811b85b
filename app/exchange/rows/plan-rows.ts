/**
 * Rows of a table as flights and sorties. A row of the plan is found by its key, else by its name; a column that is not
 * there, and an empty cell, leave it as it is. A new row takes what it leaves open from its craft's class.
 */
import type { Entity } from "../../entity/entities.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { missingCase } from "../../ground/missing-case.ts";
import { type Flight, freshFlight } from "../../entity/flight.ts";
import { type Sortie, freshSortie } from "../../entity/sortie.ts";
import { type Field, type FieldTable, type NamedValue, type OwnOf, fieldsOf, openChoices } from "../../fields/field.ts";
import { flightFields } from "../../fields/flight-fields.ts";
import { sortieFields } from "../../fields/sortie-fields.ts";
import type { Named } from "../../words/named.ts";
import type { PlanContext } from "./plan-context.ts";
import type { Lookup, RowCells } from "./row-cells.ts";

/** What a new row cannot do without. */
const refuseGaps = (cells: RowCells, what: string, columns: readonly (readonly [string, string])[]): void => {
  const lacking = columns.filter(([column]) => !cells.has(column)).map(([, name]) => name);
  if (lacking.length > 0)
    cells.fault(null, `The plan has no ${what} of this name or key, and a new one needs: ${lacking.join(", ")}.`);
};

/** A field as its cell says; undefined: there is none, and nothing was said. */
const readCell = <E>(
  cells: RowCells,
  { value: form, rows }: Field<E>,
  before: unknown,
  context: PlanContext,
): unknown => {
  if (rows === null) return before;
  const { id } = rows;
  if (form.kind === "choice")
    return cells.choice(
      id,
      openChoices(form.choices).map((choice) => choice.id),
      before as string,
    );
  if (!cells.has(id)) return before;
  switch (form.kind) {
    case "number":
      return cells.figure(id);
    case "instant":
      return cells.instant(id);
    case "named":
      return cells.one(id, form.what, named(form.of, context))?.id;
    case "text":
    case "note":
      return cells.text(id);
    case "key":
    case "own":
      return before;
    default:
      return missingCase(form);
  }
};

const named = (of: NamedValue["of"], { craft, depots, campaigns }: PlanContext): Lookup<Named> =>
  ({ craft, depot: depots, campaign: campaigns })[of];

/**
 * The whole row: `made` as it is, every other field as its cell says, else as it was, else as a fresh row has it; what nobody
 * sees stays. A list or a union must be among what is made.
 */
const rowOf = <E extends object, T extends FieldTable<E>>(
  table: T & FieldTable<E>,
  cells: RowCells,
  context: PlanContext,
  before: E | null,
  fresh: Partial<E>,
  made: Readonly<Record<OwnOf<T>, unknown>> & { readonly [P in keyof E]?: unknown },
): unknown => ({
  ...before,
  ...Object.fromEntries(
    fieldsOf<E>(table).flatMap(([property, field]) =>
      property in made
        ? []
        : [[property, readCell(cells, field, (before ?? fresh)[property] ?? emptyOf(field), context)]],
    ),
  ),
  ...made,
});

/** A name that nobody gave is refused as one, and not for its absence. */
const emptyOf = <E>({ value: { kind } }: Field<E>): "" | undefined => (kind === "text" ? "" : undefined);

/** A date that is not given keeps its distance from the one that is. */
const beside = (before: number, other: number, otherBefore: number): number => before + other - otherBefore;

const loadsOf = (
  cells: RowCells,
  { entities, classes }: PlanContext,
  before: Entity<"flight"> | null,
  classId: string | undefined,
): Entity<"flight">["loads"] => {
  const usual = classes.get(classId ?? "")?.propellants ?? [];
  return entities.propellant.flatMap(({ id: propellantId }) => {
    const known = before?.loads.find((line) => line.propellantId === propellantId)?.loadedKg;
    if (!cells.has(`load.${propellantId}`)) {
      const kept = before === null ? usual.find((line) => line.propellantId === propellantId)?.loadKg : known;
      return kept === undefined ? [] : [{ propellantId, loadedKg: kept }];
    }
    const loadedKg = cells.figure(`load.${propellantId}`);
    // Nothing of what it does not carry is no load.
    return loadedKg === null || (loadedKg === 0 && known === undefined) ? [] : [{ propellantId, loadedKg }];
  });
};

/** In the order of the flight as it was, so that what is equal stays equal. */
const inOrderOf = <T extends { readonly propellantId: string }>(lines: readonly T[], before: readonly T[]): T[] => {
  const place = (line: T): number => {
    const index = before.findIndex(({ propellantId }) => propellantId === line.propellantId);
    return index < 0 ? before.length : index;
  };
  return lines.toSorted((a, b) => place(a) - place(b));
};

/** Both ends of a flight: as given, as they were, or the only one that there is. */
const endsOf = (cells: RowCells, context: PlanContext, before: Entity<"flight"> | null) => {
  const to = cells.has("to") ? (cells.one("to", "depot", context.depots)?.id ?? null) : (before?.depotId ?? null);
  const from = cells.has("from")
    ? (cells.one("from", "source or depot", context.places)?.origin ?? null)
    : (before?.origin ?? null);
  const fromId = from === null ? null : from.kind === "depot" ? from.depotId : from.sourceId;
  const depotId = to ?? (cells.has("to") ? null : (context.onlyDepot(fromId)?.id ?? null));
  return { depotId, origin: from ?? (cells.has("from") ? null : context.onlyOrigin(depotId)) };
};

export const flightRow = (
  cells: RowCells,
  context: PlanContext,
): { readonly value: unknown; readonly before: Entity<"flight"> | null } => {
  const before = context.flights.before(cells);
  const craft = cells.has("craft")
    ? cells.one("craft", "tanker", context.craft)
    : (context.craftById.get(before?.craftId ?? "") ?? null);
  const ends = endsOf(cells, context, before);
  if (before === null)
    refuseGaps(cells, "flight", [
      ["craft", "a tanker"],
      ...(ends.origin === null ? [["from", "where from"] as const] : []),
      ...(ends.depotId === null ? [["to", "a depot"] as const] : []),
      ["arrives", "its arrival"],
    ]);
  const craftClass = context.classes.get(craft?.classId ?? "");
  const arrives = cells.has("arrives") ? cells.instant("arrives") : null;
  const departs = cells.has("departs") ? cells.instant("departs") : null;
  const tripMs = (craftClass?.tripDays ?? 0) * DAY_MS;
  const arriveAt =
    arrives ??
    (before === null ? null : departs === null ? before.arriveAt : beside(before.arriveAt, departs, before.departAt));
  const departAt =
    departs ??
    (before === null
      ? arriveAt === null
        ? null
        : arriveAt - tripMs
      : arrives === null
        ? before.departAt
        : beside(before.departAt, arrives, before.arriveAt));
  const key = before?.key ?? context.flights.fresh(cells);
  return {
    before,
    value: rowOf<Flight, typeof flightFields>(flightFields, cells, context, before, freshFlight, {
      id: before?.id ?? `${context.planCaseId}.${key}`.slice(0, 64),
      planCaseId: context.planCaseId,
      key,
      craftId: craft?.id,
      origin: ends.origin ?? undefined,
      depotId: ends.depotId ?? undefined,
      departAt,
      arriveAt,
      berthDays: cells.has("berth") ? cells.figure("berth") : (before?.berthDays ?? craftClass?.berthDays ?? 0),
      loads: inOrderOf(loadsOf(cells, context, before, craft?.classId), before?.loads ?? []),
    }),
  };
};

const demandOf = (cells: RowCells, { entities }: PlanContext, before: Entity<"sortie"> | null): unknown => {
  const stated = before?.demand.kind === "stated" ? before.demand.lines : [];
  const isGiven = entities.propellant.some(({ id }) => cells.has(`load.${id}`) || cells.has(`return.${id}`));
  if (!isGiven) return before?.demand ?? { kind: "class" };
  const lines = entities.propellant.flatMap(({ id: propellantId }) => {
    const known = stated.find((line) => line.propellantId === propellantId);
    const loadKg = cells.has(`load.${propellantId}`) ? cells.figure(`load.${propellantId}`) : known?.loadKg;
    const returnKg = cells.has(`return.${propellantId}`)
      ? cells.figure(`return.${propellantId}`)
      : (known?.returnKg ?? 0);
    if (loadKg === undefined && returnKg === 0) return [];
    return [{ propellantId, loadKg: loadKg ?? 0, returnKg: returnKg ?? 0 }];
  });
  return { kind: "stated", lines: inOrderOf(lines, stated) };
};

export const sortieRow = (
  cells: RowCells,
  context: PlanContext,
): { readonly value: unknown; readonly before: Entity<"sortie"> | null } => {
  const before = context.sorties.before(cells);
  const { onlyCampaign, onlyLander } = context;
  const onlyDepot = context.onlyDepot(null);
  if (before === null)
    refuseGaps(cells, "sortie", [
      ...(onlyCampaign === null ? [["campaign", "a campaign"] as const] : []),
      ...(onlyLander === null ? [["lander", "a lander"] as const] : []),
      ...(onlyDepot === null ? [["depot", "a depot"] as const] : []),
      ["loads", "its loading"],
    ]);
  const lander = cells.has("lander")
    ? cells.one("lander", "lander", context.craft)
    : (context.craftById.get(before?.landerId ?? "") ?? onlyLander);
  const tripMs = (context.classes.get(lander?.classId ?? "")?.tripDays ?? 0) * DAY_MS;
  const loadAt = cells.has("loads") ? cells.instant("loads") : (before?.loadAt ?? null);
  const usual =
    loadAt === null ? null : before === null ? loadAt + tripMs : beside(before.returnAt, loadAt, before.loadAt);
  const key = before?.key ?? context.sorties.fresh(cells);
  return {
    before,
    value: rowOf<Sortie, typeof sortieFields>(sortieFields, cells, context, before, freshSortie, {
      id: before?.id ?? `${context.planCaseId}.${key}`.slice(0, 64),
      planCaseId: context.planCaseId,
      key,
      campaignId: cells.has("campaign")
        ? cells.one("campaign", "campaign", context.campaigns)?.id
        : (before?.campaignId ?? onlyCampaign?.id),
      landerId: lander?.id,
      depotId: cells.has("depot")
        ? cells.one("depot", "depot", context.depots)?.id
        : (before?.depotId ?? onlyDepot?.id),
      loadAt,
      returnAt: cells.has("returns") ? cells.instant("returns") : usual,
      demand: demandOf(cells, context, before),
    }),
  };
};
