/** Puts a record right: what was wrong is reversed or withdrawn and what really happened is recorded, as one step. */
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { composeSteps } from "./compose-steps.ts";
import type { RecordInput } from "./record-input.ts";
import { recordReverse, recordWithdrawal } from "./record-reverse.ts";
import type { RecordBooks, Recorder } from "./recorder.ts";

/** What was wrong: an entry of the journal, or a gauge reading. */
export type Wrong = RecordInput<"record.correct">["wrong"];

const takeOut = (books: RecordBooks, wrong: Wrong, reason: string, recorder: Recorder): Step =>
  wrong.kind === "entry"
    ? recordReverse(books, { entryId: wrong.id, reason }, recorder)
    : recordWithdrawal(books, { readingId: wrong.id, reason }, recorder);

const MAX_LABEL = 120;

/** `make`: the record as it should have been, on the books without the wrong one. Throws what either of the two throws. */
export const recordCorrection = (
  store: LedgerBooks,
  { wrong, reason }: { readonly wrong: Wrong; readonly reason: string },
  make: (books: LedgerBooks) => Step,
  recorder: Recorder,
): Step => {
  const step = composeSteps(store, [(books) => takeOut(books, wrong, reason, recorder), make]);
  return { ...step, label: `Correct: ${step.label}`.slice(0, MAX_LABEL) };
};
