/** Rows of a study as the page takes them: one list of numbers, so that ten thousand points cross threads and hosts lightly. */
import type { Cell } from "./columns.ts";

/** Point by point, `width` cells each. In a column of words the number is a place in `words`; NaN: no value. */
export interface StudyTable {
  readonly width: number;
  readonly cells: Float64Array;
  /** Which of the columns hold words. */
  readonly wordColumns: readonly number[];
  readonly words: readonly string[];
}

export const rowsIn = ({ cells, width }: StudyTable): number => (width === 0 ? 0 : cells.length / width);

/** Words in an order that hangs on nothing but themselves: the same rows are the same bytes, however they were cut. */
const placesOf = (words: Iterable<string>): ReadonlyMap<string, number> =>
  new Map([...new Set(words)].toSorted().map((word, index) => [word, index]));

/** Packs rows of equal length. */
export const packRows = (rows: readonly (readonly Cell[])[], width: number): StudyTable => {
  const cells = new Float64Array(rows.length * width);
  const wordColumns = new Set<number>();
  const places = placesOf(rows.flatMap((row) => row.filter((cell) => typeof cell === "string")));
  rows.forEach((row, at) =>
    row.forEach((cell, column) => {
      if (typeof cell === "string") wordColumns.add(column);
      cells[at * width + column] = typeof cell === "string" ? (places.get(cell) ?? Number.NaN) : (cell ?? Number.NaN);
    }),
  );
  return { width, cells, wordColumns: [...wordColumns].toSorted((a, b) => a - b), words: [...places.keys()] };
};

/** The cell of a point of the table (from 0). */
export const cellAt = ({ width, cells, wordColumns, words }: StudyTable, row: number, column: number): Cell => {
  const value = cells[row * width + column] ?? Number.NaN;
  if (Number.isNaN(value)) return null;
  return wordColumns.includes(column) ? (words[value] ?? null) : value;
};

/** One table after the other. All are of the same columns. */
export const joinTables = (tables: readonly StudyTable[], width: number): StudyTable => {
  const places = placesOf(tables.flatMap((table) => table.words));
  const wordColumns = new Set(tables.flatMap((table) => table.wordColumns));
  const cells = new Float64Array(tables.reduce((sum, table) => sum + table.cells.length, 0));
  let at = 0;
  for (const table of tables) {
    cells.set(table.cells, at);
    for (const column of table.wordColumns)
      for (let index = column; index < table.cells.length; index += width) {
        const word = table.words[table.cells[index] ?? Number.NaN];
        if (word !== undefined) cells[at + index] = places.get(word) ?? Number.NaN;
      }
    at += table.cells.length;
  }
  return { width, cells, wordColumns: [...wordColumns].toSorted((a, b) => a - b), words: [...places.keys()] };
};
