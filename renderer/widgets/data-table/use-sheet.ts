/** What is being written in a table: the cell that is open, what was refused, and the order held while one writes. */
import { useRef, useState } from "react";
import { type Column, headingText } from "./column.ts";
import { blockOf } from "./block.ts";
import type { GridPlace } from "./grid-keys.ts";
import { type CellRefusal, type CellWrite, type Sheet, type WrittenBy, filledCells, pastedCells } from "./sheet.ts";

/** The cell in which is typed. */
export interface OpenCell {
  readonly rowId: string;
  readonly columnId: string;
  readonly text: string;
  /** What stood there as it opened. */
  readonly before: string;
}

interface SheetRow<R> {
  readonly id: string;
  readonly original: R;
}

interface SheetOptions<R> {
  readonly sheet: Sheet | undefined;
  readonly columns: readonly Column<R>[];
  readonly rows: readonly SheetRow<R>[];
}

const NONE: readonly CellRefusal[] = [];

export const useSheet = <R>({ sheet, columns, rows }: SheetOptions<R>) => {
  const [open, setOpen] = useState<OpenCell | null>(null);
  const [refusals, setRefusals] = useState(NONE);
  // A refusal of the service that comes late must not wipe out what was refused since.
  const writes = useRef(0);

  const nameOfRow = (row: SheetRow<R>): string => {
    const [first] = columns;
    return first === undefined ? row.id : (first.text?.(row.original) ?? String(first.value(row.original) ?? ""));
  };
  const whereOf = (row: SheetRow<R>, column: Column<R>): string => `${nameOfRow(row)}, ${column.heading}`;

  /** Whether all was taken, as far as is known at once. */
  const send = (cells: readonly CellWrite[], by: WrittenBy, words: string): boolean => {
    if (sheet === undefined || cells.length === 0) return true;
    const { now, later } = sheet.write(cells, by, words);
    writes.current += 1;
    const turn = writes.current;
    setRefusals(now);
    void later.then((refused) => {
      if (refused.length > 0) setRefusals((shown) => (turn === writes.current ? refused : [...refused, ...shown]));
    });
    return now.length === 0;
  };

  /** Opens a cell; `text` takes the place of what stands there. */
  const begin = (place: GridPlace, text?: string): boolean => {
    const row = rows[place.row];
    const column = columns[place.column];
    if (sheet === undefined || row === undefined || column === undefined) return false;
    // What was typed and refused stays in its cell until it is mended or given up there.
    if (open !== null) return true;
    const where = whereOf(row, column);
    const fixed =
      column.edit === undefined
        ? "This is worked out from the rest of the plan."
        : (sheet.closed ?? column.edit.fixed(row.original));
    if (fixed !== null || column.edit === undefined) {
      setRefusals([{ rowId: row.id, columnId: column.id, where, reason: fixed ?? "" }]);
      return true;
    }
    const before = column.edit.draft(row.original);
    setRefusals(NONE);
    setOpen({ rowId: row.id, columnId: column.id, text: text ?? before, before });
    return true;
  };

  /** Writes what is typed; a refused text stays in its cell. */
  const commit = (): boolean => {
    if (open === null) return true;
    const line = rows.findIndex(({ id }) => id === open.rowId);
    const column = columns.find(({ id }) => id === open.columnId);
    if (line < 0 || column === undefined) {
      setRefusals([
        {
          rowId: null,
          columnId: null,
          where: "The row",
          reason: `is not in the table any more; “${open.text}” was not written.`,
        },
      ]);
      setOpen(null);
      return true;
    }
    const text = open.text.trim();
    const isTaken =
      text === open.before ||
      send([{ rowId: open.rowId, line, columnId: open.columnId, text }], "typed", headingText(column));
    if (isTaken) setOpen(null);
    return isTaken;
  };

  const refuse = (where: string, reason: string): void => setRefusals([{ rowId: null, columnId: null, where, reason }]);

  const paste = (text: string, at: GridPlace): void => {
    if (sheet === undefined) return;
    if (sheet.closed !== null) return refuse("The table", sheet.closed);
    const {
      cells,
      refusals: found,
      leftOut,
    } = pastedCells(blockOf(text), { columns, rows, at, canGrow: sheet.canGrow });
    const workedOut = `${leftOut.join(", ")}: worked out from the rest of the plan`;
    if (found.length > 0) setRefusals(found);
    else if (cells.length > 0) send(cells, "pasted", leftOut.length === 0 ? "" : `Left out: ${workedOut}.`);
    else if (leftOut.length > 0) refuse("The block", `${workedOut}.`);
    else setRefusals(NONE);
  };

  const fill = (from: GridPlace, until: GridPlace): void => {
    if (sheet === undefined) return;
    if (sheet.closed !== null) return refuse("The table", sheet.closed);
    send(filledCells(columns, rows, { from, until }), "filled", "");
  };

  const isRefused = (rowId: string, columnId: string): boolean =>
    refusals.some((refused) => refused.rowId === rowId && refused.columnId === columnId);

  return {
    open,
    refusals,
    isRefused,
    begin,
    commit,
    paste,
    fill,
    type: (text: string) => setOpen((cell) => (cell === null ? null : { ...cell, text })),
    cancel: () => {
      setOpen(null);
      setRefusals(NONE);
    },
    dismiss: () => setRefusals(NONE),
  };
};
