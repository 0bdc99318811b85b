/** The points of a study as a table: what was varied, then what is asked of the plan as a whole, then sortie by sortie. */
import { columnUnit, columnWords } from "../../study/column-words.ts";
import type { StudyAnswer } from "../../study/study-answer.ts";
import { cellAt, rowsIn } from "../../study/study-table.ts";
import { formatNumber } from "../../format/number.ts";
import { capitalised } from "../../words/counted.ts";
import { figureColumn, massColumn, nothing, number, percent, shortage, text, wordColumn } from "../cell.ts";
import type { Cell, Column, ReportMassUnit, Table } from "../model.ts";
import { SHARE_DECIMALS, decimalsFor } from "./study-figures.ts";
import { shownUnit } from "../../study/shown-figure.ts";

/** As many points as paper and page show. */
const PAPER_ROWS = 24;
/** As many columns as a page has room for. */
const PAPER_COLUMNS = 9;
/** Decimals of what was computed, for people: means and delays have no end of them. */
const OUTCOME_DECIMALS = 2;

/** How a column is headed, and a cell of it. */
interface Written {
  readonly column: Column;
  readonly cell: (row: number) => Cell;
}

const written = (answer: StudyAnswer, column: number, massUnit: ReportMassUnit, rows: number): Written => {
  const title = capitalised(columnWords(answer, column));
  if (answer.rows.wordColumns.includes(column))
    return {
      column: wordColumn(title),
      cell: (row) => {
        const cell = cellAt(answer.rows, row, column);
        return cell === null ? nothing : text(String(cell));
      },
    };
  const shown = shownUnit(columnUnit(answer, column), massUnit);
  const ofNumber =
    (make: (value: number) => Cell) =>
    (row: number): Cell => {
      const cell = cellAt(answer.rows, row, column);
      return typeof cell === "number" ? make(cell) : nothing;
    };
  const isInput = column < answer.inputs.length;
  // Margins are masses like those of the supply check; values that were chosen are shown as they were chosen.
  if (!isInput && answer.columns[column]?.unit === "kg") return { column: massColumn(title), cell: ofNumber(shortage) };
  const unit = shown.unit === "" ? null : shown.unit;
  if (unit === "%" && !isInput)
    return {
      column: figureColumn(title, unit),
      cell: ofNumber((value) => percent(value / shown.per, SHARE_DECIMALS)),
    };
  const values = Array.from({ length: rows }, (_, row) => Number(cellAt(answer.rows, row, column) ?? Number.NaN));
  const decimals = Math.min(decimalsFor(values, shown), isInput ? Infinity : OUTCOME_DECIMALS);
  return { column: figureColumn(title, unit), cell: ofNumber((value) => number(value / shown.per, decimals)) };
};

/** What stands on paper and what elsewhere, in words. */
const extent = (answer: StudyAnswer, rows: number, columns: number): string => {
  const { points } = answer;
  const all = answer.columns.length;
  const isCut = points > PAPER_ROWS || all > columns;
  const onPaper = [
    ...(points > PAPER_ROWS ? [`the first ${PAPER_ROWS} of ${formatNumber(points)} points`] : []),
    ...(all > columns ? [`${columns} of ${all} columns`] : []),
  ].join(" and ");
  const inBook =
    rows < points
      ? `the first ${formatNumber(rows)} points, with all columns; the other ${formatNumber(points - rows)} are in the ledger alone`
      : "all of them";
  return isCut ? ` On paper and on the page ${onPaper}; in the workbook and as CSV ${inBook}.` : "";
};

/** `most`: rows that the table may have. */
export const studyTable = (
  answer: StudyAnswer,
  id: string,
  of: string,
  massUnit: ReportMassUnit,
  most: number,
): Table => {
  const rows = Math.min(rowsIn(answer.rows), most);
  const places = answer.columns.map((_, column) => column);
  const isEach = (column: number): boolean => answer.columns[column]?.sortieId !== undefined;
  const order = [...places.filter((column) => !isEach(column)), ...places.filter(isEach)];
  const columns = order.map((column) => written(answer, column, massUnit, rows));
  const whole = places.filter((column) => !isEach(column)).length;
  const onPage = Math.min(PAPER_COLUMNS, Math.max(1, whole));
  return {
    kind: "table",
    id,
    caption: `Points of ${of}.${extent(answer, rows, onPage)}`,
    columns: columns.map(({ column }) => column),
    rows: Array.from({ length: rows }, (_, row) => columns.map(({ cell }) => cell(row))),
    onPaper: { rows: PAPER_ROWS, columns: onPage },
  };
};
