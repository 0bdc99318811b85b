/** A journal entry as one tank sees it: what it posts there, where it stands among the movements, whether it states a level. */
import type { Tank } from "../entity/tank.ts";
import type { TankMovement } from "../ledger/books.ts";
import { type JournalEntry, toGrams } from "../ledger/journal.ts";
import type { RecordDraft } from "./recorder.ts";

/** Grams that an entry posts on a tank. */
export const gramsOn = (entry: JournalEntry, tankId: string): number =>
  entry.postings.reduce(
    (sum, { account, grams }) => (account.kind === "tank" && account.ownerId === tankId ? sum + grams : sum),
    0,
  );

/** The tanks that an entry posts on, each once. */
export const tanksOf = (entry: JournalEntry): string[] => [
  ...new Set(entry.postings.filter(({ account }) => account.kind === "tank").map(({ account }) => account.ownerId)),
];

/** Where an entry stands among the movements of a tank; the latest of those alike. */
export const indexAmong = (movements: readonly TankMovement[], entry: JournalEntry, tankId: string): number =>
  movements.findLastIndex(
    (m) => m.at === entry.at && m.kind === entry.kind && toGrams(m.massKg) === gramsOn(entry, tankId),
  );

/** The movements without one that an entry made; entries alike in instant, kind and mass are interchangeable here. */
export const without = (
  movements: readonly TankMovement[],
  entry: JournalEntry,
  tankId: string,
): readonly TankMovement[] => {
  const index = indexAmong(movements, entry, tankId);
  return index < 0 ? movements : movements.toSpliced(index, 1);
};

/** Whether an entry says what the tank holds after it; `readings` are those written with it. */
export const states = (
  entry: JournalEntry,
  tank: Pick<Tank, "id"> & Partial<Tank>,
  { readings = [] }: Pick<RecordDraft, "readings">,
): boolean => {
  if (entry.kind === "closing") return readings.some((row) => row.entryId === entry.id && row.tankId === tank.id);
  if (entry.kind === "loading") return tank.ownerKind === "craft";
  return entry.kind === "opening" || entry.kind === "reading" || entry.kind === "return";
};
