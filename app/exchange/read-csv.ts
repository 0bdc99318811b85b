/** Reads a CSV file of flights, sorties or gauge readings: what it would change, and what is wrong, row by row. */
import type { z } from "zod";
import { PlanningError } from "../contract/failure.ts";
import { parseInput } from "../contract/parse-input.ts";
import { applyChanges } from "../ledger/apply-changes.ts";
import { changeLine } from "../ledger/change-line.ts";
import { type Change, type Entity, type EntitySet, entitySchemas } from "../ledger/entities.ts";
import { findEntity } from "../ledger/entity-index.ts";
import { type Reading, reading as readingSchema } from "../ledger/journal.ts";
import { rowFaults } from "../ledger/rules/check-plan.ts";
import { formatMinute } from "../ledger/time.ts";
import { type CellReader, cellReader } from "./csv-cell.ts";
import { headingFaults, propellantColumns } from "./csv-column.ts";
import { readFlight, type RowContext } from "./csv-flight.ts";
import type { CsvFault, CsvPreview } from "./csv-preview.ts";
import { readReading } from "./csv-reading.ts";
import { readSortie } from "./csv-sortie.ts";
import { type CsvTable, csvTable } from "./csv-table.ts";

export interface CsvRequest {
  readonly kind: CsvPreview["kind"];
  readonly planCaseId: string;
  readonly text: string;
  /** Take the good rows though others are bad. */
  readonly goodRowsOnly: boolean;
}

/** What the ledger holds, and where new ids come from. */
export interface CsvGround {
  /** Of the plan case (`entitiesOfCase`) or the whole ledger. */
  readonly entities: EntitySet;
  readonly readings: readonly Reading[];
  readonly newId: () => string;
}

export interface CsvReading {
  readonly preview: CsvPreview;
  /** To be committed; empty where nothing may be taken. */
  readonly changes: readonly Change[];
  readonly readings: readonly Reading[];
}

interface Candidate<T> {
  readonly cells: CellReader;
  readonly line: number;
  readonly value: T;
}

/** Which heading a property of the row came from, for faults found later. */
const columnOf: Readonly<Record<string, string>> = {
  departAt: "departs",
  arriveAt: "arrives",
  loadAt: "loads",
  returnAt: "returns",
  craftId: "craft",
  landerId: "lander",
  campaignId: "campaign",
  berthDays: "berth days",
  massKg: "mass kg",
  sigmaKg: "sigma kg",
};

/** A flight's depot stands under "to", a sortie's under "depot". */
const headingOf = (property: string | null, cells: CellReader): string | null => {
  const first = property?.split(".")[0] ?? null;
  if (first === "depotId") return cells.has("to") ? "to" : "depot";
  return first === null ? null : (columnOf[first] ?? first);
};

const parsed = <T>(schema: z.ZodType<T>, cells: CellReader, value: unknown): T | null => {
  if (value === null) return null;
  try {
    return parseInput(schema, value);
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    cells.fault(headingOf(error.field, cells), error.message);
    return null;
  }
};

/** Every row read by itself. */
const candidates = <T>(
  table: CsvTable,
  schema: z.ZodType<T>,
  read: (cells: CellReader) => unknown,
): { readonly good: readonly Candidate<T>[]; readonly faults: readonly CsvFault[] } => {
  const all = table.rows.map((row) => {
    const cells = cellReader(row, table.delimiter);
    return { cells, line: row.line, value: parsed(schema, cells, read(cells)) };
  });
  return {
    good: all.filter((row): row is Candidate<T> => row.value !== null),
    faults: all.flatMap((row) => row.cells.faults),
  };
};

/** Rows of the file that name what an earlier row of it named. */
const refuseRepeats = <T>(
  rows: readonly Candidate<T>[],
  nameOf: (value: T) => string,
  column: string,
  reason: string,
) => {
  const first = new Map<string, number>();
  const kept: Candidate<T>[] = [];
  const faults: CsvFault[] = [];
  for (const row of rows) {
    const line = first.get(nameOf(row.value));
    if (line === undefined) {
      first.set(nameOf(row.value), row.line);
      kept.push(row);
    } else faults.push({ line: row.line, column, reason: `${reason} on line ${line} already` });
  }
  return { kept, faults };
};

/** At most so many lines of what would change. */
const MOST_EFFECTS = 200;

interface Outcome {
  readonly faults: readonly CsvFault[];
  readonly changes: readonly { readonly change: Change; readonly effect: string }[];
  readonly readings: readonly { readonly reading: Reading; readonly effect: string }[];
}

const readPlanRows = (kind: "flight" | "sortie", table: CsvTable, request: CsvRequest, ground: CsvGround): Outcome => {
  const { entities } = ground;
  const columns = propellantColumns(request.kind, table, entities);
  const context: RowContext = { plan: entities, planCaseId: request.planCaseId, columns, newId: ground.newId };
  const schema: z.ZodType<Entity<"flight"> | Entity<"sortie">> = entitySchemas[kind];
  const read = kind === "flight" ? readFlight : readSortie;
  const { good, faults } = candidates(table, schema, (cells) => read(cells, context));
  const { kept, faults: repeats } = refuseRepeats(good, ({ key }) => key, "key", "the same key stands");
  const changes = kept.map(({ value }) => ({ op: "put", kind, value }) as Change);
  const after = applyChanges(entities, changes);
  const nameOf = (id: string) =>
    findEntity(entities, "depot", id)?.name ?? findEntity(entities, "craft", id)?.name ?? id;
  const broken = kept.map(({ line, value, cells }) =>
    rowFaults(kind, value as never, after).map(({ property, message }) => ({
      line,
      column: headingOf(property, cells),
      reason: message,
    })),
  );
  return {
    faults: [...faults, ...repeats, ...broken.flat()],
    changes: kept.flatMap(({ value }, i) => {
      const change = changes[i];
      if (change === undefined || (broken[i]?.length ?? 0) > 0) return [];
      const before = findEntity<"flight" | "sortie">(entities, kind, value.id);
      return [{ change, effect: changeLine(kind, before, value, nameOf) }];
    }),
    readings: [],
  };
};

const placeOf = ({ tankId, at }: Reading) => `${tankId} ${at}`;

const readReadingRows = (table: CsvTable, ground: CsvGround): Outcome => {
  const { entities } = ground;
  const { good, faults } = candidates(table, readingSchema, (cells) => readReading(cells, entities, ground.newId));
  const known = new Set(ground.readings.filter((row) => !row.isWithdrawn).map(placeOf));
  const isKnown = ({ value }: Candidate<Reading>) => known.has(placeOf(value));
  const fresh = good.filter((row) => !isKnown(row));
  const { kept, faults: repeats } = refuseRepeats(fresh, placeOf, "at", "this tank was read at this instant");
  const reason = "the ledger has a reading of this tank at this instant already";
  return {
    faults: [...faults, ...repeats, ...good.filter(isKnown).map(({ line }) => ({ line, column: "at", reason }))],
    changes: [],
    readings: kept.map(({ value }) => {
      const tank = findEntity(entities, "tank", value.tankId)?.name ?? value.tankId;
      const effect = `new reading of ${tank}, ${formatMinute(value.at)}: ${value.massKg} kg ± ${value.sigmaKg} kg`;
      return { reading: value, effect };
    }),
  };
};

const outcomeOf = (table: CsvTable, request: CsvRequest, ground: CsvGround): Outcome => {
  const headings = headingFaults(request.kind, table, ground.entities);
  // Without its headings a file says nothing.
  if (table.headings.length === 0 || headings.length > 0) return { faults: headings, changes: [], readings: [] };
  switch (request.kind) {
    case "flights":
      return readPlanRows("flight", table, request, ground);
    case "sorties":
      return readPlanRows("sortie", table, request, ground);
    case "readings":
      return readReadingRows(table, ground);
  }
};

/** Nothing is to be taken unless every row is good, or the good ones alone are asked for. Throws "not found" for the case. */
export const readCsv = (request: CsvRequest, ground: CsvGround): CsvReading => {
  if (findEntity(ground.entities, "planCase", request.planCaseId) === null)
    throw new PlanningError("not found", `There is no plan case ${request.planCaseId}.`, "planCaseId");
  const table = csvTable(request.text);
  const outcome = outcomeOf(table, request, ground);
  const faults = [...table.faults, ...outcome.faults].toSorted((a, b) => a.line - b.line);
  const good = outcome.changes.length + outcome.readings.length;
  const isTaken = good > 0 && (faults.length === 0 || request.goodRowsOnly);
  const badLines = new Set(table.faults.filter(({ line }) => line > 1).map(({ line }) => line));
  return {
    preview: {
      kind: request.kind,
      rows: table.rows.length + badLines.size,
      goodRows: good,
      faults,
      effects: [...outcome.changes, ...outcome.readings].slice(0, MOST_EFFECTS).map(({ effect }) => effect),
      isTaken,
    },
    changes: isTaken ? outcome.changes.map(({ change }) => change) : [],
    readings: isTaken ? outcome.readings.map(({ reading }) => reading) : [],
  };
};
