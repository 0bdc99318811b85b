/** What a cell shows of its text, and how it is set: figures at the end, sentences over lines with their dates whole. */
import { Sentence } from "../sentence.tsx";
import { type Column, cellText } from "./column.ts";

export const cellClass = <R,>(column: Column<R>, isLong: boolean): string => {
  if (column.isNumber === true) return "cell-number figures";
  return column.isSentence === true && !isLong ? "cell cell-sentence" : "cell";
};

/** Whether a column takes what room is left. */
export const takesRoom = <R,>(column: Column<R>): boolean => column.isWide === true || column.isSentence === true;

export const CellWords = <R,>({ column, row }: { readonly column: Column<R>; readonly row: R }) =>
  column.isSentence === true ? <Sentence words={cellText(column, row)} /> : cellText(column, row);
