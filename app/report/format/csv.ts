/** A table as CSV, with cells that a spreadsheet would run as formulas made harmless. */
import { type CsvCell, type CsvForm, csvText } from "../../format/csv-form.ts";
import { neutralise } from "../../format/neutralise.ts";
import type { Cell, ReportMassUnit, Table } from "../model.ts";
import { cellForMachines, plainHeading } from "./cell-text.ts";

const csvCell = (cell: Cell, unit: ReportMassUnit): CsvCell => {
  if (cell.kind === "text") return neutralise(cell.text);
  if (cell.kind === "instant") return new Date(cell.at);
  return cell.kind === "nothing" ? null : { figure: cellForMachines(cell, unit) };
};

export const tableToCsv = (table: Table, unit: ReportMassUnit, form: CsvForm): string =>
  csvText(
    [
      table.columns.map((column) => neutralise(plainHeading(column, unit))),
      ...table.rows.map((row) => row.map((cell) => csvCell(cell, unit))),
    ],
    form,
  );
