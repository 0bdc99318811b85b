/** A study that the ledger keeps: what it was of, and its rows. */
import type { StudyAnswer } from "./study-answer.ts";

export interface KeptStudy {
  /** Counted up in the ledger; a deleted number comes again only if it was the last. */
  readonly number: number;
  readonly keptAt: number;
  readonly author: string;
  readonly planCaseId: string;
  readonly caseName: string;
  /** What was varied, or what the person called it. */
  readonly name: string;
  readonly points: number;
  /** Version of the program that computed it. */
  readonly program: string;
  /** SHA-256, hexadecimal, of the plan and the readings that it was computed from. */
  readonly planHash: string;
  /** SHA-256, hexadecimal, of the answer's text. */
  readonly answerHash: string;
}

/** One that is to be kept; its number and the hash of its answer are made when it is. */
export interface NewStudy {
  readonly keptAt: number;
  readonly author: string;
  readonly name: string;
  readonly program: string;
  readonly planHash: string;
  readonly answer: StudyAnswer;
}

/** One in the list: whether the plan, the records or the program have moved on since. */
export interface ListedStudy extends KeptStudy {
  readonly isStale: boolean;
}
