/** A table that is filled in where it stands: which cells are to be written, and which were refused and why. */
import { type Column, cellText, headingText } from "./column.ts";
import { outgoingText } from "./copy-text.ts";

/** One cell that is to be written. */
export interface CellWrite {
  /** null: a row that the table does not have yet; those of one `line` make one. */
  readonly rowId: string | null;
  /** The line of the table, from 0; new rows go on after the last. */
  readonly line: number;
  readonly columnId: string;
  readonly text: string;
}

export interface CellRefusal {
  readonly rowId: string | null;
  readonly columnId: string | null;
  /** "Drover 3, Departs" */
  readonly where: string;
  /** A sentence: what is wrong, and what may be written. */
  readonly reason: string;
}

export type WrittenBy = "typed" | "pasted" | "filled";

/** What became of cells at once, and what the service says of them later. Where one is refused none is written. */
export interface Written {
  readonly now: readonly CellRefusal[];
  readonly later: Promise<readonly CellRefusal[]>;
}

/** Where a table takes what is written into it. */
export interface Sheet {
  readonly write: (cells: readonly CellWrite[], by: WrittenBy, words: string) => Written;
  /** Why nothing can be written; null: it can. */
  readonly closed: string | null;
  /** Whether pasted lines beyond the last become new rows. */
  readonly canGrow: boolean;
}

export interface PastedCells {
  readonly cells: readonly CellWrite[];
  readonly refusals: readonly CellRefusal[];
  /** Headings of columns in the block that are worked out, and so were left out. */
  readonly leftOut: readonly string[];
}

interface PasteTarget<R> {
  readonly columns: readonly Column<R>[];
  /** As they stand in the table. */
  readonly rows: readonly { readonly id: string; readonly original: R }[];
  readonly at: { readonly row: number; readonly column: number };
  readonly canGrow: boolean;
}

const refusal = (where: string, reason: string): CellRefusal => ({ rowId: null, columnId: null, where, reason });

/** The columns that a line of headings names; null: the line is none. */
const namedColumns = <R>(line: readonly string[], columns: readonly Column<R>[]): readonly Column<R>[] | null => {
  const found = line.map((cell) => columns.find((column) => headingText(column) === cell.trim()));
  return line.length > 1 && found.every((column) => column !== undefined) ? found : null;
};

/** Whether a pasted text is what the cell says already: such a cell stays as it is, to the millisecond. */
const isSame = <R>(column: Column<R>, row: R, text: string): boolean =>
  text === outgoingText(column, row) || text === cellText(column, row);

/**
 * The cells that a block pasted at a cell would write. A first line with the table's own headings says which column is
 * which; otherwise the block lies from the cell on to the right. What is as it was is left out.
 */
export const pastedCells = <R>(block: readonly (readonly string[])[], target: PasteTarget<R>): PastedCells => {
  const { columns, rows, at, canGrow } = target;
  const named = namedColumns(block[0] ?? [], columns);
  const lines = named === null ? block : block.slice(1);
  const none = (reason: string): PastedCells => ({ cells: [], refusals: [refusal("The block", reason)], leftOut: [] });
  const width = Math.max(...block.map((line) => line.length));
  const places = named ?? columns.slice(at.column, at.column + width);
  if (lines.length === 0) return none("holds headings alone.");
  if (places.length < width)
    return none(`is ${width} columns wide; from here on the table has ${columns.length - at.column}.`);
  const beyond = at.row + lines.length - rows.length;
  if (beyond > 0 && !canGrow)
    return none(`is ${lines.length} rows long; from here on the table has ${rows.length - at.row}.`);
  const leftOut = new Set<string>();
  const cells = lines.flatMap((line, offset) => {
    const row = rows[at.row + offset];
    return line.flatMap((raw, index): readonly CellWrite[] => {
      const column = places[index];
      if (column === undefined) return [];
      const text = raw.trim();
      if (row === undefined ? text === "" : isSame(column, row.original, text)) return [];
      if (column.edit === undefined) {
        leftOut.add(column.heading);
        return [];
      }
      return [{ rowId: row?.id ?? null, line: at.row + offset, columnId: column.id, text }];
    });
  });
  return { cells, refusals: [], leftOut: [...leftOut] };
};

interface FillRange {
  readonly from: { readonly row: number; readonly column: number };
  readonly until: { readonly row: number; readonly column: number };
}

/** The cells below the first row of a range, each to become as the first of its column. */
export const filledCells = <R>(
  columns: readonly Column<R>[],
  rows: readonly { readonly id: string; readonly original: R }[],
  { from, until }: FillRange,
): readonly CellWrite[] => {
  const [top, bottom] = [Math.min(from.row, until.row), Math.max(from.row, until.row)];
  const [left, right] = [Math.min(from.column, until.column), Math.max(from.column, until.column)];
  const first = rows[top];
  if (first === undefined) return [];
  return columns.slice(left, right + 1).flatMap((column) => {
    const { edit } = column;
    if (edit === undefined) return [];
    const text = edit.draft(first.original);
    return rows
      .slice(top + 1, bottom + 1)
      .flatMap((row, offset) =>
        edit.draft(row.original) === text ? [] : [{ rowId: row.id, line: top + 1 + offset, columnId: column.id, text }],
      );
  });
};
