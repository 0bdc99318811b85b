/** Puts a record right: what was wrong is reversed or withdrawn and what really happened is recorded, as one step. */
import type { LedgerBooks, Step } from "../ledger/books.ts";
import type { EntryKind, JournalEntry } from "../ledger/journal.ts";
import { composeSteps } from "./compose-steps.ts";
import type { RecordInput } from "./record-input.ts";
import { recordWithdrawal, takeBackEntry } from "./record-reverse.ts";
import { recordedAs } from "./recorded-as.ts";
import type { RecordBooks, Recorder } from "./recorder.ts";
import { refuseBurnedLessThanNothing, refuseClosed, refuseTwoPlaces } from "./refuse-correction.ts";

/** What was wrong: an entry of the journal, or a gauge reading. */
export type Wrong = RecordInput<"record.correct">["wrong"];

const takeOut = (books: RecordBooks, wrong: Wrong, reason: string, recorder: Recorder): Step =>
  wrong.kind === "entry"
    ? takeBackEntry(books, { entryId: wrong.id, reason }, recorder)
    : recordWithdrawal(books, { readingId: wrong.id, reason }, recorder);

const MAX_LABEL = 120;

const subjectKinds: ReadonlySet<EntryKind> = new Set<EntryKind>([
  "departure",
  "arrival",
  "loss of flight",
  "loading",
  "return",
]);

/** The entry of a flight or sortie that is put right; null: a reading, or an entry that was written by hand. */
const subjectEntry = (books: LedgerBooks, wrong: Wrong): JournalEntry | null => {
  if (wrong.kind !== "entry") return null;
  const entry = books.entry(wrong.id);
  return subjectKinds.has(entry.kind) && entry.subjectKey !== null ? entry : null;
};

const labelOf = (books: LedgerBooks, entry: JournalEntry | null, step: Step): string => {
  const { kind, subjectKey } = entry ?? {};
  const isSame = step.entries.some((row) => row.kind === kind && row.subjectKey === subjectKey);
  if (kind === undefined || !isSame) return `Correct: ${step.label}`;
  const { flight, sortie } = books.entities();
  const name = [...flight, ...sortie].find(({ key }) => key === subjectKey)?.name ?? subjectKey ?? "";
  return `Correct ${kind === "loss of flight" ? "loss" : kind} of ${name}`;
};

/**
 * `make`: the record as it should have been, on the books without the wrong one. Throws what either of the two throws, and
 * "refused", with the way out, where something recorded later hangs on it.
 */
export const recordCorrection = (
  store: LedgerBooks,
  { wrong, reason }: { readonly wrong: Wrong; readonly reason: string },
  make: (books: LedgerBooks, recorder: Recorder) => Step,
  recorder: Recorder,
): Step => {
  const subject = subjectEntry(store, wrong);
  // Says in words why it cannot be put right, before anything is tried.
  if (subject !== null) recordedAs(store, subject.id);
  let inFrontOf: ReadonlySet<string> = new Set();
  const composed = composeSteps(
    store,
    [
      (books) => {
        const out = takeOut(books, wrong, reason, recorder);
        inFrontOf = new Set(out.entries.map(({ id }) => id));
        return out;
      },
      (books) => make(books, { ...recorder, inFrontOf }),
    ],
    undefined,
    true,
  );
  const step = { ...composed, label: labelOf(store, subject, composed).slice(0, MAX_LABEL) };
  const before = store.entities();
  if (subject !== null) {
    const isOf = ({ kind, subjectKey }: JournalEntry): boolean =>
      kind === subject.kind && subjectKey === subject.subjectKey;
    const was = step.reversedEntryIds.map((id) => store.entry(id)).filter(isOf);
    refuseClosed(store, was, step.entries.filter(isOf));
    refuseBurnedLessThanNothing(before, step);
  }
  // What was let pass on the way is not let pass in the end.
  store.rehearse((books) => {
    books.commit(step);
    if (subject !== null) refuseTwoPlaces(before, books.entities(), subject.subjectKey);
  });
  return step;
};
