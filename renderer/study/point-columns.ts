/** How the columns of a study are headed and their cells written. */
import { columnUnit, columnWords } from "../../app/study/column-words.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { cellAt } from "../../app/study/study-table.ts";
import type { MassUnit } from "../format/mass.ts";
import { capitalised } from "../../app/words/counted.ts";
import { valueText } from "../../app/study/shown-figure.ts";

export const columnTitle = (answer: Pick<StudyAnswer, "columns">, column: number): string =>
  capitalised(columnWords(answer, column));

/** A cell of a point with its unit. */
export const cellWords = (answer: StudyAnswer, row: number, column: number, unit: MassUnit): string => {
  const cell = cellAt(answer.rows, row, column);
  return typeof cell === "string" ? cell : valueText(cell, columnUnit(answer, column), unit);
};

/** "Loss factor 2, cadence 90 days": the values of a point. */
export const pointWords = (answer: StudyAnswer, row: number, unit: MassUnit): string =>
  answer.inputs.map(({ words }, input) => `${words} ${cellWords(answer, row, input, unit)}`).join(", ");
