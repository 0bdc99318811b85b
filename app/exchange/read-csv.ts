/** What a CSV file would bring into a ledger: rows checked one by one, each fault with its line, column and reason. */
import type { z } from "zod";
import { PlanningError } from "../contract/failure.ts";
import { parseInput } from "../contract/parse-input.ts";
import { applyChanges } from "../ledger/apply-changes.ts";
import { type Change, type EntitySet, entitySchemas } from "../ledger/entities.ts";
import { type Reading, reading } from "../ledger/journal.ts";
import { checkPlan } from "../ledger/rules/check-plan.ts";
import { formatDate, formatMinute } from "../ledger/time.ts";
import { type CellReader, cellReader } from "./csv-cells.ts";
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

const needed: Readonly<Record<CsvPreview["kind"], readonly string[]>> = {
  flights: ["name", "craft", "from", "to", "arrives"],
  sorties: ["name", "campaign", "lander", "depot", "loads"],
  readings: ["tank", "at", "sigma kg"],
};

const refuseHeadings = (kind: CsvPreview["kind"], headings: readonly string[]): void => {
  const missing = needed[kind].filter((heading) => !headings.includes(heading));
  if (missing.length > 0) throw new PlanningError("invalid input", `The heading lacks: ${missing.join(", ")}.`, "text");
};

/** Checks what a row became; null where it is no good, with the reason among the row's faults. */
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

type ReadRow = (cells: CellReader) => Taken | null;

const planRows = (kind: "flights" | "sorties", entities: EntitySet, planCaseId: string): ReadRow => {
  const taken = new Set<string>();
  let soFar = entities;
  return (cells) => {
    const isFlight = kind === "flights";
    const make = isFlight ? flightRow : sortieRow;
    const entityKind = isFlight ? "flight" : "sortie";
    const value = checked<{ key: string; name: string; id: string }>(
      cells,
      entitySchemas[entityKind],
      make(cells, entities, planCaseId, taken),
      (row) => {
        if (taken.has(row.key)) throw new PlanningError("refused", `The key ${row.key} stands in two rows.`, "key");
        const change = { op: "put", kind: entityKind, value: row } as unknown as Change;
        const after = applyChanges(soFar, [change]);
        checkPlan(after, [change], soFar);
        soFar = after;
      },
    );
    if (value === null) return null;
    taken.add(value.key);
    const isNew = !entities[entityKind].some(({ id }) => id === value.id);
    const at =
      "arriveAt" in value
        ? `arrives ${formatDate(value.arriveAt as number)}`
        : `loads ${formatDate((value as unknown as { loadAt: number }).loadAt)}`;
    return {
      effect: `${isNew ? "new" : "changed"} ${entityKind} ${value.name}, ${at}`,
      change: { op: "put", kind: entityKind, value } as unknown as Change,
      reading: null,
    };
  };
};

const readingRows = (entities: EntitySet, known: readonly Reading[]): ReadRow => {
  const taken = new Set(known.map(({ id }) => id));
  const instants = new Set(known.filter((each) => !each.isWithdrawn).map(({ tankId, at }) => `${tankId} ${at}`));
  const tankNames = new Map(entities.tank.map(({ id, name }) => [id, name]));
  return (cells) => {
    const row = checked<Reading>(cells, reading, readingRow(cells, entities), ({ id, tankId, at }) => {
      if (taken.has(id) || instants.has(`${tankId} ${at}`))
        throw new PlanningError("refused", "There is a reading of this tank at this instant already.", "at");
    });
    if (row === null) return null;
    taken.add(row.id);
    instants.add(`${row.tankId} ${row.at}`);
    return {
      effect: `reading of ${tankNames.get(row.tankId) ?? row.tankId}, ${formatMinute(row.at)}: ${row.massKg} kg`,
      change: null,
      reading: row,
    };
  };
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
  refuseHeadings(kind, table.headings);
  const readRow = kind === "readings" ? readingRows(entities, known) : planRows(kind, entities, planCaseId);
  const faults: CsvFault[] = [];
  const good: Taken[] = [];
  for (const row of table.rows) {
    const cells = cellReader(row, table);
    const taken = readRow(cells);
    faults.push(...cells.faults);
    if (taken !== null) good.push(taken);
  }
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
