/** A table as CSV (RFC 4180: CRLF, quotes doubled), with cells that a spreadsheet would run as formulas made harmless. */
import { stringify } from "csv-stringify/browser/esm/sync";
import { neutralise } from "../../format/neutralise.ts";
import type { ReportMassUnit, Table } from "../model.ts";
import { cellForMachines, plainHeading } from "./cell-text.ts";

/** The whole table with its heading row. Masses in the report's unit, which the headings name. */
export const tableToCsv = (table: Table, unit: ReportMassUnit): string => {
  const heading = table.columns.map((column) => neutralise(plainHeading(column, unit)));
  const rows = table.rows.map((row) =>
    row.map((cell) => (cell.kind === "text" ? neutralise(cell.text) : cellForMachines(cell, unit))),
  );
  return stringify([heading, ...rows], { record_delimiter: "windows" });
};
