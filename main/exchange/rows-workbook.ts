/** Rows as a workbook that an import takes back without a change: real numbers and dates. */
import writeXlsxFile from "write-excel-file/node";
import type { RowCell, RowsTable } from "../../app/exchange/rows/write-rows.ts";
import { guarded } from "../../app/format/neutralise.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";

/** 1970-01-01 as spreadsheets count days. */
const SERIAL_OF_1970 = 25_569;

/** A quarter of a millisecond later: readers cut off what is left of a millisecond, and a day's part is never exact. */
const serialOf = (date: Date): number => SERIAL_OF_1970 + (date.getTime() + 0.25) / DAY_MS;

const cellOf = (cell: RowCell) => {
  if (cell === null || cell === "") return null;
  if (cell instanceof Date) return { value: serialOf(cell), type: Number, format: "yyyy-mm-dd hh:mm" };
  return typeof cell === "number" ? { value: cell, type: Number } : { value: guarded(cell), type: String };
};

/** One sheet, named after the kind of rows. */
export const rowsToWorkbook = async ({ headings, rows }: RowsTable, sheet: string): Promise<Buffer> => {
  const head = headings.map((value) => ({ value, type: String, fontWeight: "bold" }));
  const data = [head, ...rows.map((row) => row.map(cellOf))];
  // A date and time with room at both sides: less, and some programs show ####.
  const dateWidth = (index: number): number => (rows.some((row) => row[index] instanceof Date) ? 18 : 12);
  const columns = headings.map((heading, index) => ({ width: Math.max(dateWidth(index), heading.length + 4) }));
  // The library's cell type is wider than ours; ours is a part of it.
  return await writeXlsxFile([{ sheet, data, columns, stickyRowsCount: 1 }] as never).toBuffer();
};
