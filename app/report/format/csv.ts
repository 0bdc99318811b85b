/** A table as CSV (RFC 4180: CRLF, quotes doubled), with cells that a spreadsheet would run as formulas made harmless. */
import { stringify } from "csv-stringify/browser/esm/sync";
import type { ReportMassUnit, Table } from "../model.ts";
import { cellForMachines } from "./cell-text.ts";

/**
 * A text that starts with = + - @, a tab or a return is run by spreadsheets; an apostrophe before it stops that. Numbers
 * written by the program itself are left alone.
 */
export const neutralise = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

/** The whole table with its heading row. Masses in the report's unit, which the headings name. */
export const tableToCsv = (table: Table, unit: ReportMassUnit): string => {
  const heading = table.columns.map((column) =>
    neutralise(
      column.unit === null ? column.title : `${column.title} [${column.unit === "mass" ? unit : column.unit}]`,
    ),
  );
  const rows = table.rows.map((row) =>
    row.map((cell) => (cell.kind === "text" ? neutralise(cell.text) : cellForMachines(cell, unit))),
  );
  return stringify([heading, ...rows], { record_delimiter: "windows" });
};
