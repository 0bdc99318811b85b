/** What a step does to the levels: before and after, at the instants that it speaks of and at the as-of instant. */
import type { LevelChange } from "../ledger/ledger-view.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { type JournalEntry, toKg } from "../ledger/journal.ts";
import { tankGrams } from "./level-state.ts";

/** Level by the books and the loss model, kg; 0 of a tank that is not there. */
const levelKg = (books: LedgerBooks, tankId: string, at: number): number => {
  const entities = books.entities();
  const tank = entities.tank.find(({ id }) => id === tankId);
  return tank === undefined ? 0 : toKg(tankGrams(entities, books, tank, at).modelGrams);
};

/** Of every tank that the step touches, in order of time. `reversed`: the entries that it takes back. */
export const levelChanges = (
  store: LedgerBooks,
  step: Step,
  reversed: readonly JournalEntry[],
): readonly LevelChange[] => {
  const { asOfAt, lastRecordAt } = store.header();
  const nowAt = asOfAt ?? lastRecordAt ?? 0;
  const instants = new Map<string, Set<number>>();
  for (const { at, postings } of [...reversed, ...step.entries])
    for (const { account } of postings)
      if (account.kind === "tank")
        instants.set(account.ownerId, (instants.get(account.ownerId) ?? new Set([nowAt])).add(at));
  const asked = [...instants].flatMap(([tankId, found]) =>
    [...found].map((at) => ({ tankId, at, beforeKg: levelKg(store, tankId, at) })),
  );
  return store.rehearse((books) => {
    books.commit(step);
    return (
      asked
        .map((row): LevelChange => ({ ...row, afterKg: levelKg(books, row.tankId, row.at) }))
        // A level that was measured after it stands: nothing to say of it.
        .filter(({ at, beforeKg, afterKg }) => at === nowAt || beforeKg !== afterKg)
        .toSorted((a, b) => a.at - b.at)
    );
  });
};
