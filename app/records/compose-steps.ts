/**
 * Several records as one step: each is made on the books as the one before it leaves them, and all are written, and undone,
 * together. What a later one takes back of an earlier one is never written.
 */
import type { Change } from "../entity/entities.ts";
import type { JournalEntry, Reading } from "../ledger/journal.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";

const MAX_LABEL = 120;

/** Makes each on the books that those before it leave; the ledger itself stays as it is. Throws what a record throws. */
const stepsOf = (
  store: LedgerBooks,
  makes: readonly ((books: LedgerBooks, index: number) => Step)[],
  mayOverdraw: boolean,
): readonly Step[] =>
  store.rehearse(
    (books) =>
      makes.map((make, index) => {
        const step = make(books, index);
        books.commit(step);
        return step;
      }),
    mayOverdraw,
  );

/**
 * One step that does what all do, one after the other. `label`: what undo is called; left out: what each is called.
 * `mayOverdraw`: a tank may be below empty between one and the next; the whole is still refused if it leaves one so.
 */
export const composeSteps = (
  store: LedgerBooks,
  makes: readonly ((books: LedgerBooks, index: number) => Step)[],
  label?: string,
  mayOverdraw = false,
): Step => {
  const steps = stepsOf(store, makes, mayOverdraw);
  const [first] = steps;
  if (first === undefined) throw new Error("a step of no records");
  const entries = new Map<string, JournalEntry>();
  const readings = new Map<string, Reading>();
  const takenBack = new Set<string>();
  const relinked = new Map<string, string>();
  const withdrawn: string[] = [];
  const changes: Change[] = [];
  for (const step of steps) {
    for (const id of step.reversedEntryIds) if (!entries.delete(id)) takenBack.add(id);
    for (const entry of step.entries) entries.set(entry.id, entry);
    for (const reading of step.readings) readings.set(reading.id, reading);
    for (const { readingId, entryId } of step.relinkedReadings ?? []) {
      const own = readings.get(readingId);
      if (own === undefined) relinked.set(readingId, entryId);
      else readings.set(readingId, { ...own, entryId });
    }
    withdrawn.push(...step.withdrawnReadingIds);
    changes.push(...step.changes);
  }
  return {
    ...first,
    label: (label ?? steps.map((step) => step.label).join("; ")).slice(0, MAX_LABEL),
    reason: steps
      .map(({ reason }) => reason)
      .filter((reason) => reason !== "")
      .join("; ")
      .slice(0, 500),
    changes,
    entries: [...entries.values()],
    readings: [...readings.values()],
    withdrawnReadingIds: withdrawn,
    relinkedReadings: [...relinked].map(([readingId, entryId]) => ({ readingId, entryId })),
    reversedEntryIds: [...takenBack],
  };
};
