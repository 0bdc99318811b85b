/** What a study on screen answers: its columns, and the rows of all points so far, in their order. */
import type { Column } from "./columns.ts";
import type { Indices } from "./indices.ts";
import type { StudyAsked } from "./question.ts";
import type { StudyTable } from "./study-table.ts";

export interface StudyInput {
  /** "loss rate of Tarn hydrogen". */
  readonly words: string;
  /** "": a number. */
  readonly unit: string;
  /** The value of the plan as it is, where there is one. */
  readonly today: number | null;
}

/** What matters to one outcome. */
export interface ColumnRanking extends Indices {
  /** Place among the columns of the study. */
  readonly column: number;
}

export interface StudyAnswer {
  readonly planCaseId: string;
  readonly planCase: string;
  /** SHA-256 of the plan, the readings and what was asked: what the rows hang on. */
  readonly inputHash: string;
  readonly asked: StudyAsked;
  readonly inputs: readonly StudyInput[];
  /** The inputs, then what is asked. */
  readonly columns: readonly Column[];
  /** Of the whole study. */
  readonly points: number;
  /** The rows are those of the points from here on, without a gap. */
  readonly from: number;
  readonly rows: StudyTable;
  /** Of a whole study planned for it; else empty. */
  readonly rankings: readonly ColumnRanking[];
}
