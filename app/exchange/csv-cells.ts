/** Reads the cells of one row, gathering what is wrong instead of stopping at the first. */
import { readInstant } from "../ledger/time.ts";
import type { CsvFault } from "./csv-preview.ts";
import type { CsvRow, CsvTable } from "./csv-table.ts";

type Named = { readonly id: string; readonly name: string };

export interface CellReader {
  readonly faults: readonly CsvFault[];
  fault(column: string | null, reason: string): void;
  has(column: string): boolean;
  text(column: string): string;
  /** A figure; null where it is missing or none (a fault unless `isOptional`). */
  figure(column: string, isOptional?: boolean): number | null;
  instant(column: string): number | null;
  /** The thing that a cell names by id or by name. */
  one<T extends Named>(column: string, what: string, rows: readonly T[]): T | null;
  choice<T extends string>(column: string, choices: readonly T[], fallback: T): T;
}

const shown = (text: string): string => `“${text.slice(0, 40)}”`;

const figureOf = (text: string, hasDecimalComma: boolean): number => {
  const plain = text.replace(/[\s\u2009\u202f\u00a0]/g, "").replace("\u2212", "-");
  const pointed = hasDecimalComma ? plain.replace(",", ".") : plain;
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(pointed) ? Number(pointed) : Number.NaN;
};

export const cellReader = (row: CsvRow, table: CsvTable): CellReader => {
  const faults: CsvFault[] = [];
  const fault = (column: string | null, reason: string): void => void faults.push({ line: row.line, column, reason });
  const text = (column: string): string => row.cells.get(column) ?? "";
  if (row.width !== table.headings.length)
    fault(null, `This row has ${row.width} cells; the heading has ${table.headings.length}.`);
  return {
    faults,
    fault,
    has: (column) => text(column) !== "",
    text,
    figure: (column, isOptional = false) => {
      const cell = text(column);
      if (cell === "") {
        if (!isOptional) fault(column, "A figure is needed here.");
        return null;
      }
      const value = figureOf(cell, table.hasDecimalComma);
      if (Number.isFinite(value)) return value;
      fault(column, `${shown(cell)} is not a number.`);
      return null;
    },
    instant: (column) => {
      const at = readInstant(text(column));
      if (at === null)
        fault(column, `${shown(text(column))} is not a date. Write 2031-02-20 or 2031-02-20T14:05Z (UTC).`);
      return at;
    },
    one: (column, what, rows) => {
      const cell = text(column);
      const found =
        rows.find(({ id }) => id === cell) ?? rows.find(({ name }) => name.toLowerCase() === cell.toLowerCase());
      if (found === undefined)
        fault(column, cell === "" ? `A ${what} is needed here.` : `There is no ${what} ${shown(cell)}.`);
      return found ?? null;
    },
    choice: (column, choices, fallback) => {
      const cell = text(column).toLowerCase();
      const found = choices.find((each) => each === cell);
      if (found === undefined && cell !== "") fault(column, `${shown(cell)} is none of: ${choices.join(", ")}.`);
      return found ?? fallback;
    },
  };
};
