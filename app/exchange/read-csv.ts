/** What a CSV file would bring into a ledger: rows checked one by one, each fault with its line, column and reason. */
import type { z } from "zod";
import { PlanningError } from "../contract/failure.ts";
import { parseInput } from "../contract/parse-input.ts";
import { applyChanges } from "../ledger/apply-changes.ts";
import { type Change, type Entity, type EntitySet, entitySchemas } from "../ledger/entities.ts";
import { findEntity } from "../ledger/entity-index.ts";
import { type Reading, reading } from "../ledger/journal.ts";
import { rowFaults } from "../ledger/rules/check-plan.ts";
import { formatDate, formatMinute } from "../ledger/time.ts";
import { type CellReader, cellReader } from "./csv-cells.ts";
import { refuseHeadings } from "./csv-headings.ts";
import { flightRow, sortieRow } from "./csv-plan-rows.ts";
import type { CsvFault, CsvPreview } from "./csv-preview.ts";
import { readingRow } from "./csv-reading-rows.ts";
import { readTable } from "./csv-table.ts";

export interface CsvTaking {
  readonly preview: CsvPreview;
  readonly changes: readonly Change[];
  readonly readings: readonly Reading[];
}

interface Taken {
  readonly effect: string;
  readonly change: Change | null;
  readonly reading: Reading | null;
}

const MOST_EFFECTS = 200;

/** What a row became, in the schema's form; null where it is no good, with the reason among the row's faults. */
const checked = <T>(cells: CellReader, schema: z.ZodType, value: unknown, rule: (value: T) => void): T | null => {
  if (cells.faults.length > 0) return null;
  try {
    const row = parseInput<T>(schema as z.ZodType<T>, value);
    rule(row);
    return row;
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    cells.fault(error.field, error.message);
    return null;
  }
};

type PlanRow = Entity<"flight"> | Entity<"sortie">;

const effectOf = (row: PlanRow, isNew: boolean): string => {
  const [word, at] =
    "arriveAt" in row
      ? ["flight", `arrives ${formatDate(row.arriveAt)}`]
      : ["sortie", `loads ${formatDate(row.loadAt)}`];
  return `${isNew ? "new" : "changed"} ${word} ${row.name}, ${at}`;
};

/** Rows are read one by one, then checked together in the plan that all of them make: once, however many they are. */
const readPlanRows = (
  kind: "flights" | "sorties",
  entities: EntitySet,
  planCaseId: string,
  rows: readonly CellReader[],
): readonly Taken[] => {
  const entityKind = kind === "flights" ? "flight" : "sortie";
  const make = kind === "flights" ? flightRow : sortieRow;
  const taken = new Set<string>();
  const read = rows.flatMap((cells) => {
    const value = checked<PlanRow>(
      cells,
      entitySchemas[entityKind],
      make(cells, entities, planCaseId, taken),
      ({ key }) => {
        if (taken.has(key)) throw new PlanningError("refused", `The key ${key} stands in two rows.`, "key");
      },
    );
    if (value === null) return [];
    taken.add(value.key);
    return [{ cells, value, change: { op: "put", kind: entityKind, value } as Change }];
  });
  const after = applyChanges(
    entities,
    read.map(({ change }) => change),
  );
  return read.flatMap(({ cells, value, change }) => {
    for (const { property, message } of rowFaults<"flight" | "sortie">(entityKind, value, after))
      cells.fault(property, message);
    if (cells.faults.length > 0) return [];
    return [{ effect: effectOf(value, findEntity(entities, entityKind, value.id) === null), change, reading: null }];
  });
};

const readReadingRows = (
  entities: EntitySet,
  known: readonly Reading[],
  rows: readonly CellReader[],
): readonly Taken[] => {
  const taken = new Set(known.map(({ id }) => id));
  const instants = new Set(known.filter((each) => !each.isWithdrawn).map(({ tankId, at }) => `${tankId} ${at}`));
  const tankNames = new Map(entities.tank.map(({ id, name }) => [id, name]));
  return rows.flatMap((cells) => {
    const row = checked<Reading>(cells, reading, readingRow(cells, entities), ({ id, tankId, at }) => {
      if (taken.has(id) || instants.has(`${tankId} ${at}`))
        throw new PlanningError("refused", "There is a reading of this tank at this instant already.", "at");
    });
    if (row === null) return [];
    taken.add(row.id);
    instants.add(`${row.tankId} ${row.at}`);
    const effect = `reading of ${tankNames.get(row.tankId) ?? row.tankId}, ${formatMinute(row.at)}: ${row.massKg} kg`;
    return [{ effect, change: null, reading: row }];
  });
};

/**
 * Reads the file against the plan case's rows (`entities` without other cases) and the readings there are. Nothing is
 * written. Throws "invalid input" for a file that is no such table at all.
 */
export const readCsv = (
  kind: CsvPreview["kind"],
  text: string,
  entities: EntitySet,
  planCaseId: string,
  known: readonly Reading[],
): CsvTaking => {
  const table = readTable(text);
  refuseHeadings(kind, table.headings, entities);
  const rows = table.rows.map((row) => cellReader(row, table));
  const good =
    kind === "readings" ? readReadingRows(entities, known, rows) : readPlanRows(kind, entities, planCaseId, rows);
  const faults: readonly CsvFault[] = rows.flatMap((cells) => cells.faults);
  return {
    preview: {
      kind,
      rows: table.rows.length,
      goodRows: good.length,
      faults,
      effects: good.slice(0, MOST_EFFECTS).map(({ effect }) => effect),
      isTaken: false,
    },
    changes: good.flatMap(({ change }) => (change === null ? [] : [change])),
    readings: good.flatMap(({ reading: each }) => (each === null ? [] : [each])),
  };
};
