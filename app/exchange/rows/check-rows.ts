/** Rows as read, checked: each by its form, then all together in the plan that they make. */
import type { z } from "zod";
import { PlanningError } from "../../ground/failure.ts";
import { parseInput } from "../../ground/parse-input.ts";
import { applyChanges } from "../../entity/apply-changes.ts";
import { type Change, type EntitySet, entitySchemas } from "../../entity/entities.ts";
import { rowsColumnOf } from "../../fields/field.ts";
import { flightFields } from "../../fields/flight-fields.ts";
import { sortieFields } from "../../fields/sortie-fields.ts";
import { type Reading, reading as readingSchema } from "../../ledger/journal.ts";
import { rowFaults } from "../../ledger/rules/check-plan.ts";
import type { ReadingContext, ReadingRow } from "./reading-rows.ts";
import { type PlanRow, planEffect, readingEffect, recordedFault, whatBecomes } from "./row-effects.ts";
import type { RowEffect, RowFault } from "./rows-preview.ts";

/** Where what is wrong with a row is told. */
interface Faulty {
  readonly faults: readonly RowFault[];
  fault(column: string | null, reason: string): void;
}

/** A row on its way: what it became, and what is wrong with it. */
export interface DraftRow<V> extends Faulty {
  readonly line: number;
  readonly made: V;
}

export interface CheckedRow {
  readonly what: RowEffect["what"];
  /** In words: made for the rows that are shown alone. */
  effect(): RowEffect;
  readonly change: Change | null;
  readonly reading: Reading | null;
}

const readingColumns: Readonly<Record<string, string>> = { tankId: "tank", massKg: "mass", sigmaKg: "sigma" };

/** A kind of row by a property that it alone has. */
const isFlight = (value: unknown): boolean => "arriveAt" in (value as object);
const isSortie = (value: unknown): boolean => "loadAt" in (value as object);

/** The column that a property of the row came from: "loads.1.loadedKg" → "load.oxygen". */
const columnOf = (property: string | null, value: unknown): string | null => {
  if (property === null) return null;
  const [first = "", index, inner] = property.split(".");
  const lines = (value as { loads?: readonly { propellantId: string }[] }).loads;
  if (first === "loads" && lines?.[Number(index)] !== undefined) return `load.${lines[Number(index)]?.propellantId}`;
  if (first === "demand" && inner !== undefined) return null;
  if (isFlight(value)) return rowsColumnOf(flightFields, first) ?? first;
  return (isSortie(value) ? rowsColumnOf(sortieFields, first) : readingColumns[first]) ?? first;
};

/** What a row became, in the schema's form; null where it is no good, with the reason among the row's faults. */
const parsed = <T>(draft: Faulty, schema: z.ZodType<T>, value: unknown): T | null => {
  if (draft.faults.length > 0) return null;
  try {
    return parseInput<T>(schema, value);
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    draft.fault(columnOf(error.field, value), error.message);
    return null;
  }
};

type PlanDraft = DraftRow<{ readonly value: unknown; readonly before: PlanRow | null }>;

/** `onRow` is told how many rows are done. */
export const checkPlanRows = (
  kind: "flight" | "sortie",
  entities: EntitySet,
  drafts: readonly PlanDraft[],
  onRow: (done: number) => void,
): readonly CheckedRow[] => {
  const lineOfKey = new Map<string, number>();
  const read = drafts.flatMap((draft) => {
    const value = parsed(draft, entitySchemas[kind] as z.ZodType<PlanRow>, draft.made.value);
    if (value === null) return [];
    const earlier = lineOfKey.get(value.key);
    if (earlier !== undefined) {
      draft.fault("key", `${value.name} (key ${value.key}) stands in line ${earlier} already.`);
      return [];
    }
    lineOfKey.set(value.key, draft.line);
    const recorded = recordedFault(draft.made.before, value);
    if (recorded !== null) {
      draft.fault(null, recorded);
      return [];
    }
    return [{ draft, value, change: { op: "put", kind, value } as Change }];
  });
  const after = applyChanges(
    entities,
    read.map(({ change }) => change),
  );
  return read.flatMap(({ draft, value, change }, done): readonly CheckedRow[] => {
    onRow(done);
    const what = whatBecomes(draft.made.before, value);
    const effect = (): RowEffect => planEffect(draft.line, what, draft.made.before, value, after);
    if (what === "unchanged") return [{ what, effect, change: null, reading: null }];
    for (const { property, message } of rowFaults<"flight" | "sortie">(kind, value, after))
      draft.fault(columnOf(property, value), message);
    return draft.faults.length > 0 ? [] : [{ what, effect, change, reading: null }];
  });
};

/** null: with faults, which the cells tell. */
export const checkReadingRow = (
  line: number,
  cells: Faulty,
  made: ReadingRow | null,
  context: ReadingContext,
): CheckedRow | null => {
  if (made === null) return null;
  const row = parsed(cells, readingSchema, made.value);
  if (row === null) return null;
  if (!made.isThere) context.keep(row);
  return {
    what: made.isThere ? "unchanged" : "new",
    effect: () => readingEffect(line, row, context.tanks.get(row.tankId)),
    change: null,
    reading: made.isThere ? null : row,
  };
};
