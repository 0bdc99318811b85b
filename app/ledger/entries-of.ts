/** The journal entries that speak of one flight or sortie. */
import type { JournalEntry } from "./journal.ts";
import type { LedgerBooks } from "./books.ts";

type Books = Pick<LedgerBooks, "journal">;

/** More entries than any one flight or sortie has. */
const ALL = 1000;

/** Every entry that speaks of a flight or sortie, by its key, those taken back and their counter-entries among them. */
export const entriesOf = (books: Books, subjectKey: string) =>
  books.journal({
    fromAt: null,
    untilAt: null,
    accountKind: null,
    ownerId: null,
    propellantId: null,
    subjectKey,
    text: "",
    offset: 0,
    limit: ALL,
  });

/** The entry of a kind that is in force for a flight or sortie; null: none. `reversed`: about to be taken back. */
export const entryInForce = (
  books: Books,
  subjectKey: string,
  wanted: JournalEntry["kind"],
  reversed: ReadonlySet<string> = new Set(),
): JournalEntry | null => {
  const { entries } = entriesOf(books, subjectKey);
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  return entries.find(({ id, kind }) => kind === wanted && !gone.has(id) && !reversed.has(id)) ?? null;
};
