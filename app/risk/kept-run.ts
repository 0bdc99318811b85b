/** A run that the ledger keeps: what it was of, and its answer. */
import type { RiskAnswer, RiskIdentity } from "./answer.ts";

export interface KeptRun extends RiskIdentity {
  /** Counted up in the ledger; a deleted number comes again only if it was the last. */
  readonly number: number;
  readonly runAt: number;
  readonly author: string;
  readonly planCaseId: string;
  readonly caseName: string;
  readonly replications: number;
  /** SHA-256, hexadecimal, of the answer's text. */
  readonly answerHash: string;
}

/** One that is to be kept; its number and the hash of its answer are made when it is. */
export interface NewRun {
  readonly runAt: number;
  readonly author: string;
  readonly caseName: string;
  readonly answer: RiskAnswer;
}

/** One in the list: whether the plan, the records or the program have moved on since. */
export interface ListedRun extends KeptRun {
  readonly isStale: boolean;
}

/** What running it again gave. */
export interface Replayed {
  readonly number: number;
  /** The same answer to the byte. */
  readonly isSame: boolean;
  /** Why it could not be run again, or what differs, in words; null: nothing. */
  readonly remark: string | null;
}

/** The text of an answer: the same answer, the same text. */
export const answerText = (answer: RiskAnswer): string => JSON.stringify(answer);
