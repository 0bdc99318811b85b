/**
 * What a table would bring into a ledger: its columns understood, its rows checked one by one, each fault with its line,
 * column and reason, and what each good row changes. Nothing is written.
 */
import type { Change, EntitySet } from "../../entity/entities.ts";
import type { Reading } from "../../ledger/journal.ts";
import { checkPlanRows, type CheckedRow, checkReadingRow } from "./check-rows.ts";
import type { ColumnMapping, RememberedMapping, RowKind } from "../../ledger/column-mapping.ts";
import { type OurColumn, ourColumns, unitsOf } from "./our-columns.ts";
import { planContext } from "./plan-context.ts";
import { flightRow, sortieRow } from "./plan-rows.ts";
import { readingContext, readingRow } from "./reading-rows.ts";
import { resolveMapping } from "./resolve-mapping.ts";
import { layoutOf, type Layout, rowCells } from "./row-cells.ts";
import type { RowEffect, RowFault, RowsPreview } from "./rows-preview.ts";
import { totalsAmong } from "./totals-row.ts";
import type { SourceLine, SourceTable } from "./source-table.ts";

/** What rows are read against: one plan case's rows, and the readings there are. */
export interface RowsTarget {
  readonly kind: RowKind;
  readonly entities: EntitySet;
  readonly planCaseId: string;
  readonly known: readonly Reading[];
  /** By what the ledger is known in calendars; null: its books have no entry yet. */
  readonly ledgerId: string | null;
  /** When the books of each tank open. */
  readonly openings: readonly { readonly tankId: string; readonly at: number }[];
}

export interface RowsTaking {
  readonly preview: RowsPreview;
  readonly changes: readonly Change[];
  readonly readings: readonly Reading[];
}

export type OnShare = (share: number) => void;

const MAX_EFFECTS = 200;
const MAX_FAULTS = 1000;
const PROGRESS_EVERY = 2000;

/** Gathers what the rows became. */
export const gather = (rows: number, good: readonly CheckedRow[], faults: readonly RowFault[]) => {
  const count = (what: CheckedRow["what"]): number => good.reduce((sum, row) => sum + Number(row.what === what), 0);
  const effects: RowEffect[] = [];
  for (const row of good) {
    if (effects.length === MAX_EFFECTS) break;
    if (row.what !== "unchanged") effects.push(row.effect());
  }
  return {
    rows,
    newRows: count("new"),
    changedRows: count("changed"),
    unchangedRows: count("unchanged"),
    faults: faults.slice(0, MAX_FAULTS),
    faultCount: faults.length,
    faultyRows: rows - good.length,
    effects,
    isTaken: false,
    booking: null,
  } as const;
};

const readPlan = (target: RowsTarget, rows: readonly SourceLine[], layout: Layout, onShare: OnShare) => {
  const context = planContext(target.entities, target.planCaseId);
  const make = target.kind === "flights" ? flightRow : sortieRow;
  const drafts = rows.map((row) => {
    const cells = rowCells(layout);
    cells.turnTo(row);
    return { line: row.line, faults: cells.faults, fault: cells.fault, made: make(cells, context) };
  });
  const entityKind = target.kind === "flights" ? "flight" : "sortie";
  const good = checkPlanRows(entityKind, target.entities, drafts, (done) => {
    if (done % PROGRESS_EVERY === 0) onShare(done / drafts.length);
  });
  return { good, faults: drafts.flatMap(({ faults }) => faults) };
};

const readReadings = (target: RowsTarget, rows: readonly SourceLine[], layout: Layout, onShare: OnShare) => {
  const context = readingContext(target.entities, target.known, target.openings);
  const faults: RowFault[] = [];
  const good: CheckedRow[] = [];
  const cells = rowCells(layout);
  rows.forEach((row, done) => {
    if (done % PROGRESS_EVERY === 0) onShare(done / rows.length);
    cells.turnTo(row);
    const checked = checkReadingRow(row.line, cells, readingRow(cells, context), context);
    if (cells.faults.length > 0) faults.push(...cells.faults);
    else if (checked !== null) good.push(checked);
  });
  return { good, faults };
};

const targetsOf = (columns: readonly OurColumn[]) =>
  columns.map(({ id, name, heading, quantity }) => ({ id, name, heading, units: unitsOf(quantity) }));

/** The rows, and those among them that only sum up. */
const withoutTotals = (
  { kind, entities }: RowsTarget,
  rows: readonly SourceLine[],
  layout: Layout,
): readonly [rows: readonly SourceLine[], totals: readonly SourceLine[]] => {
  const named = kind === "flights" ? entities.flight : kind === "sorties" ? entities.sortie : entities.tank;
  const names = new Set(named.map(({ name }) => name.toLowerCase()));
  const totals = totalsAmong(rows, layout, names);
  return [totals.size === 0 ? rows : rows.filter((row) => !totals.has(row)), [...totals]];
};

/** `about`: how the file was read, which the preview repeats. */
export const readRows = (
  table: SourceTable,
  target: RowsTarget,
  chosen: ColumnMapping,
  remembered: readonly RememberedMapping[],
  about: Pick<RowsPreview, "format" | "readAs" | "sheets" | "sheet">,
  onShare: OnShare,
): RowsTaking => {
  const columns = ourColumns(target.kind, target.entities);
  const mapping = resolveMapping(
    table,
    columns,
    chosen,
    remembered.filter(({ kind }) => kind === target.kind),
  );
  const layout = layoutOf(mapping, about.format === "workbook");
  const isAsking = mapping.questions.length > 0;
  const read = target.kind === "readings" ? readReadings : readPlan;
  const [rows, totals] = isAsking ? [table.rows, []] : withoutTotals(target, table.rows, layout);
  const { good, faults } = isAsking ? { good: [], faults: [] } : read(target, rows, layout, onShare);
  return {
    preview: {
      kind: target.kind,
      ...about,
      targets: targetsOf(columns),
      columns: mapping.columns,
      dates: mapping.dates,
      decimals: mapping.decimals,
      separator: table.separator,
      calendar: null,
      mapping: mapping.mapping,
      questions: mapping.questions,
      remarks: totals.map(({ line }) => `Line ${line} only adds up the others, and is passed over.`),
      ...gather(rows.length, good, faults),
      ...(isAsking ? { faultyRows: 0 } : {}),
    },
    changes: good.flatMap(({ change }) => (change === null ? [] : [change])),
    readings: good.flatMap(({ reading }) => (reading === null ? [] : [reading])),
  };
};
