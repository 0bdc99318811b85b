/** The keyboard of a grid: which cell a key leads to. Row −1 is the heading. */

export interface GridPlace {
  readonly row: number;
  readonly column: number;
}

interface GridPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

const PAGE_ROWS = 12;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** null: the key does not move. */
export const placeAfter = (press: GridPress, at: GridPlace, rows: number, columns: number): GridPlace | null => {
  const last = columns - 1;
  const to = (row: number, column: number): GridPlace => ({
    row: clamp(row, -1, rows - 1),
    column: clamp(column, 0, last),
  });
  const isFar = press.ctrlKey || press.metaKey;
  switch (press.key) {
    case "ArrowUp":
      return to(at.row - 1, at.column);
    case "ArrowDown":
      return to(at.row + 1, at.column);
    case "ArrowLeft":
      return to(at.row, at.column - 1);
    case "ArrowRight":
      return to(at.row, at.column + 1);
    case "PageUp":
      return to(Math.max(0, at.row - PAGE_ROWS), at.column);
    case "PageDown":
      return to(at.row + PAGE_ROWS, at.column);
    case "Home":
      return isFar ? to(0, 0) : to(at.row, 0);
    case "End":
      return isFar ? to(rows - 1, last) : to(at.row, last);
    default:
      return null;
  }
};
