/** What a column of a table is: its heading and unit, what it sorts and copies by, how it is shown. */
import type { ReactNode } from "react";

/** How a cell is written where it stands. */
export interface CellEdit<R> {
  /** What stands in the field as it opens, in full; the same text back is the same value. */
  readonly draft: (row: R) => string;
  /** Why it cannot be changed, in a sentence; null: it can. */
  readonly fixed: (row: R) => string | null;
  /** What can be written, where that is a choice; offered while one types. */
  readonly choices?: readonly string[];
}

export interface Column<R> {
  readonly id: string;
  readonly heading: string;
  /** Stands after the heading; a column of numbers bears its unit there and not in each cell. */
  readonly unit?: string;
  /** Numbers end-align; with a fixed count of decimals they meet at the decimal sign. */
  readonly isNumber?: boolean;
  /** What is sorted by; null and undefined go last. */
  readonly value: (row: R) => string | number | null | undefined;
  /** What is shown and copied; the value as text where it is not given. */
  readonly text?: (row: R) => string;
  /** What is shown in place of the text. */
  readonly show?: (row: R) => ReactNode;
  /** Shown on hover. */
  readonly title?: (row: R) => string | undefined;
  /** Takes what room is left. */
  readonly isWide?: boolean;
  /** A sentence: takes what room is left, and the lines that it needs (in a long table one, for its rows are of one height). */
  readonly isSentence?: boolean;
  /** Absent: it is worked out, and nobody writes it. */
  readonly edit?: CellEdit<R>;
}

/** The heading with its unit: "Margin, kg". */
export const headingText = <R>(column: Column<R>): string =>
  column.unit === undefined ? column.heading : `${column.heading}, ${column.unit}`;

/** A cell as text. */
export const cellText = <R>(column: Column<R>, row: R): string => {
  if (column.text !== undefined) return column.text(row);
  const value = column.value(row);
  return value === null || value === undefined ? "" : String(value);
};
