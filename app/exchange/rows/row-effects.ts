/** What a row does to the plan, field by field, in words: "arrives 2031-02-20 → 2031-02-24". */
import type { Entity, EntityKind, EntitySet } from "../../entity/entities.ts";
import { byId } from "../../entity/entity-index.ts";
import type { Reading } from "../../ledger/journal.ts";
import { formatMass } from "../../format/mass.ts";
import { formatMinute } from "../../format/time.ts";
import { saidBy } from "../../fields/differences.ts";
import type { Flight } from "../../entity/flight.ts";
import type { Sortie } from "../../entity/sortie.ts";
import { type Held, type NameOf, fieldsOf as tableLines } from "../../fields/field.ts";
import { flightFields } from "../../fields/flight-fields.ts";
import { sortieFields } from "../../fields/sortie-fields.ts";
import type { FieldChange, RowEffect } from "./rows-preview.ts";

export type PlanRow = Entity<"flight"> | Entity<"sortie">;
type Fields = ReadonlyMap<string, string>;

const namesIn =
  (entities: EntitySet): NameOf =>
  (kind, id) =>
    byId<Entity<EntityKind>>(entities[kind]).get(id)?.["name" as "id"] ?? id;

const fieldsOf = (row: PlanRow, entities: EntitySet): Fields => {
  const nameOf = namesIn(entities);
  return new Map("arriveAt" in row ? saidBy(flightFields, row, nameOf) : saidBy(sortieFields, row, nameOf));
};

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

const heldFields = (held: readonly Held[]): readonly string[] =>
  [...tableLines<Flight>(flightFields), ...tableLines<Sortie>(sortieFields)].flatMap(([property, field]) =>
    field.held !== null && held.includes(field.held) ? [property] : [],
  );

/** Where it goes may be changed by a table until it is there. */
const whenItLeft = heldFields(["begun"]).filter((property) => property !== "depotId");
const whenItCame = heldFields(["begun", "over"]);
const fixedFields: Readonly<Record<string, readonly string[]>> = {
  departed: whenItLeft,
  arrived: whenItCame,
  lost: whenItCame,
  flown: whenItCame,
  "stood down": ["status"],
};
