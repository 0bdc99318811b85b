/** Rows as tab-separated text, as spreadsheets take it from the clipboard. */
import { neutralise } from "../../../app/format/neutralise.ts";
import { type Column, cellText, headingText } from "./column.ts";

/** A figure as it stands in a cell of words: "-3.5 %". */
const figure = /^[+-]?\d*\.?\d+(?:\s*%)?$/;

/** Narrow spaces out, minus as a hyphen: what a spreadsheet reads as a number. Tabs and line ends may not be in a cell. */
const plain = (text: string): string => {
  const bare = text
    .replace(/[\u2009\u202f]/g, "")
    .replace(/\u2212/g, "-")
    .replace(/[\t\r\n]+/g, " ");
  return figure.test(bare) ? bare : neutralise(bare);
};

/** A number goes out in full, not as rounded for the eye; everything else as shown, and never as a formula. */
export const outgoingText = <R>(column: Column<R>, row: R): string => {
  const value = column.isNumber === true ? column.value(row) : null;
  return typeof value === "number" && Number.isFinite(value) ? String(value) : plain(cellText(column, row));
};

export const tableText = <R>(columns: readonly Column<R>[], rows: readonly R[]): string =>
  [
    columns.map((column) => plain(headingText(column))).join("\t"),
    ...rows.map((row) => columns.map((column) => outgoingText(column, row)).join("\t")),
  ].join("\n");
