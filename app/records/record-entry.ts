/** A journal entry written as it stands: an opening, a transfer from tank to tank, a vent. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import type { EntryKind, JournalEntry } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";

const plainKinds: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "transfer", "vent"]);

const refuseSecondOpening = (books: RecordBooks, entry: JournalEntry): void => {
  const stated = new Set(books.statedLevels().map((level) => level.tankId));
  entry.postings.forEach(({ account }, i) => {
    if (account.kind === "tank" && stated.has(account.ownerId))
      throw new PlanningError(
        "refused",
        "The books of this tank are open already. Record a gauge reading instead.",
        `postings.${i}.account`,
      );
  });
};

/** Throws "refused" for a kind that has a command of its own, and for a second opening. The store checks the balance. */
export const recordEntry = (books: RecordBooks, input: RecordInput<"record.entry">, recorder: Recorder): Step => {
  if (!plainKinds.has(input.kind))
    throw new PlanningError(
      "refused",
      `An entry of the kind “${input.kind}” is made by its own command; openings, transfers and vents are written as they stand.`,
      "kind",
    );
  const { author, recordedAt } = recorder;
  const entry: JournalEntry = { ...input, reversesId: null, author, recordedAt };
  if (entry.kind === "opening") refuseSecondOpening(books, entry);
  const label = `Write ${entry.kind === "opening" ? "an opening" : `a ${entry.kind}`}`;
  return stepOf(withRestatement(books, { label, entries: [entry] }, recorder), recorder);
};
