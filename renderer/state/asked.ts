/** How one question of the page stands. */
import type { Output, PageOperation, PartialAnswer } from "../../app/contract/contract.ts";
import type { Failure } from "../../app/ground/failure.ts";
import type { Run } from "./run.ts";

/** How one asker's question stands. */
export interface Asked<N extends PageOperation = PageOperation> {
  readonly name: N;
  /** What was asked, at which state of the ledger. */
  readonly key: string;
  /** The newest answer; null: there never was one. */
  readonly value: Output<N> | null;
  /** Whether it is the answer to what is asked now, of the ledger as it is now. */
  readonly isCurrent: boolean;
  /** What is known so far of the answer under way. */
  readonly partial: PartialAnswer<N> | null;
  /** null: nothing is under way. */
  readonly run: Run | null;
  /** Why there is no answer to what is asked now; null: there is one, or it is on its way. */
  readonly failure: Failure | null;
  /** Asks once more, after it was stopped or failed. */
  readonly again: () => void;
}
