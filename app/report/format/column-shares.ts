/** How a table's columns share its width: by their weights, but none so narrow that a figure, a date or a word would be cut. */
import type { Column, ReportMassUnit, Table } from "../model.ts";
import { cellForPeople, headingOf } from "./cell-text.ts";

/** What the text of a table has room for, in characters of the report's type and size on A4, with the gaps that columns keep. */
const CHARACTERS = 112;
/** The gap on both sides of a column, and more of it where words follow figures. */
const GAP = 1.6;
const GAP_AFTER_FIGURES = 3.4;

/** The longest part that must not be broken: figures and dates whole, words one by one. */
const longest = (text: string): number =>
  Math.max(...text.split(/[ \u2009]/).map((word) => word.replaceAll("\u202f", "").length));

/** The share of each column, 0 to 1; together 1. */
export const columnShares = (table: Pick<Table, "columns" | "rows">, unit: ReportMassUnit): readonly number[] => {
  const { columns, rows } = table;
  const needs = columns.map((column, index) => {
    const followsFigures = column.align === "start" && columns[index - 1]?.align === "end";
    const cells = rows.map((row) => longest(cellText(row[index], unit)));
    return Math.max(longest(breakableHeading(column, unit)), ...cells) + (followsFigures ? GAP_AFTER_FIGURES : GAP);
  });
  const weights = columns.reduce((sum, { weight }) => sum + weight, 0);
  const wished = columns.map(({ weight }) => (weight / weights) * CHARACTERS);
  const lacking = sum(needs.map((need, index) => Math.max(0, need - (wished[index] ?? 0))));
  const spare = sum(needs.map((need, index) => Math.max(0, (wished[index] ?? 0) - need)));
  // Where all is wanting, each gets its part of what there is.
  const given = Math.min(1, spare === 0 ? 1 : lacking / spare);
  const widths = wished.map((wish, index) => {
    const need = needs[index] ?? 0;
    return wish < need ? need : wish - (wish - need) * given;
  });
  const whole = sum(widths);
  return widths.map((width) => width / whole);
};

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

/** The heading, with a space between title and unit at which a line may end. */
export const breakableHeading = (column: Column, unit: ReportMassUnit): string =>
  headingOf(column, unit).replaceAll("\u202f", "\u2009");

const cellText = (cell: Table["rows"][number][number] | undefined, unit: ReportMassUnit): string =>
  cell === undefined ? "" : cellForPeople(cell, unit);
