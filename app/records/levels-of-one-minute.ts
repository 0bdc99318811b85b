/**
 * Levels of a tank that were stated at one instant, each booked upon the one before, the last in force. One that goes leaves
 * the others what they say, however many there are.
 */
import { isStating } from "../ledger/carry-forward.ts";
import type { TankMovement } from "../ledger/books.ts";
import { type JournalEntry, type Reading, toGrams } from "../ledger/journal.ts";
import { gramsOn, indexAmong, states, tanksOf } from "./entry-on-tank.ts";
import type { RecordBooks } from "./recorder.ts";

const BEFORE_ALL = -1;

/** What a draft changes of the books. */
export interface Changed {
  readonly added: readonly JournalEntry[];
  readonly removed: readonly JournalEntry[];
  readonly readings: readonly Reading[];
}

/** Grams that these movements come to. */
const totalGrams = (movements: readonly TankMovement[]): number =>
  movements.reduce((sum, { massKg }) => sum + toGrams(massKg), 0);

/** Where one of the entries that state levels at an instant stands among the movements: of those alike, by their order. */
const indexOfStated = (
  entry: JournalEntry,
  stated: readonly JournalEntry[],
  past: readonly TankMovement[],
  tankId: string,
): number => {
  const alike = stated.filter(
    (other) => other.kind === entry.kind && gramsOn(other, tankId) === gramsOn(entry, tankId),
  );
  const indices = [...past.entries()].flatMap(([index, m]) =>
    m.at === entry.at && m.kind === entry.kind && toGrams(m.massKg) === gramsOn(entry, tankId) ? [index] : [],
  );
  return indices[alike.indexOf(entry)] ?? indexAmong(past, entry, tankId);
};

/**
 * Grams that a gauge's reading comes to at the end of its instant: what was drawn there after it is off. An entry that was
 * written anew since stands behind what was drawn meanwhile: its level by the books then has that off already.
 */
const readGrams = (
  entry: JournalEntry,
  stated: readonly JournalEntry[],
  past: readonly TankMovement[],
  massKg: number,
  tankId: string,
): number => {
  const index = indexOfStated(entry, stated, past, tankId);
  const isDrawn = (m: TankMovement): boolean => m.at === entry.at && m.massKg < 0 && !isStating(m);
  const drawnAfter = totalGrams(past.slice(index + 1).filter(isDrawn));
  const booked = toGrams(past[index]?.bookKg ?? massKg);
  let meanwhile = 0;
  for (const drawn of past.slice(0, Math.max(0, index)).filter(isDrawn).toReversed()) {
    meanwhile += toGrams(drawn.massKg);
    if (booked === toGrams(massKg) + meanwhile) return booked + drawnAfter;
  }
  return toGrams(massKg) + drawnAfter;
};

/** Entries of an instant that state a level of a tank, in the order in which they were written. */
const statedAt = (books: RecordBooks, tankId: string, at: number): readonly JournalEntry[] =>
  books.nextStatingEntries(tankId, at - 1).filter((entry) => entry.at === at);

/** An entry that is to be written anew so that the books hold this after its instant, grams. */
export interface LevelAnew {
  readonly entry: JournalEntry;
  readonly saidGrams: number;
}

/**
 * What is to be written anew where levels of an instant are taken back and others stay: each that stays takes over what it
 * was booked upon, so that it says what it said. Where the last one goes, the last that stays is in force: it says what its
 * gauge read.
 */
export const leftAtInstant = (
  books: RecordBooks,
  changed: Changed,
  at: number,
  tankId: string,
): readonly LevelAnew[] => {
  const stated = statedAt(books, tankId, at);
  const taken = new Set(changed.removed.map(({ id }) => id));
  const last = stated.findLast(({ id, kind }) => !taken.has(id) && kind !== "opening");
  const isStatedAnew = changed.added.some((entry) => entry.at === at && states(entry, { id: tankId }, changed));
  if (last === undefined || isStatedAnew || !stated.some(({ id }) => taken.has(id))) return [];
  const past = books.tankMovements(BEFORE_ALL, at).filter((m) => m.tankId === tankId);
  const byThen = (entries: readonly JournalEntry[]): number =>
    entries.reduce((sum, entry) => sum + (entry.at <= at ? gramsOn(entry, tankId) : 0), 0);
  const after = totalGrams(past) - byThen(changed.removed) + byThen(changed.added);
  const takenOver = new Map<JournalEntry, number>();
  let carried = 0;
  for (const entry of stated) {
    if (taken.has(entry.id)) carried += gramsOn(entry, tankId);
    else if (entry.kind !== "opening") {
      takenOver.set(entry, carried);
      carried = 0;
    }
  }
  const reading = books.readings().find(({ entryId, isWithdrawn }) => entryId === last.id && !isWithdrawn);
  if (last !== stated.at(-1) && reading !== undefined) {
    const sum = [...takenOver.values()].reduce((all, grams) => all + grams, after);
    const missing = readGrams(last, stated, past, reading.massKg, tankId) - sum;
    takenOver.set(last, (takenOver.get(last) ?? 0) + missing);
  }
  return [...takenOver].flatMap(([entry, grams]) => (grams === 0 ? [] : [{ entry, saidGrams: after + grams }]));
};

/**
 * The entries that are written anew with those of their instants behind them, as they are: each instant's in the order in which
 * they were written, so that the last stays the last.
 */
export const withThoseBehind = <T extends { readonly takenBackId: string }>(
  books: RecordBooks,
  anew: readonly T[],
  removed: ReadonlySet<string>,
  asItIs: (entry: JournalEntry) => T,
): readonly T[] => {
  const rows = [...anew];
  const indexOf = (entry: JournalEntry): number => rows.findIndex(({ takenBackId }) => takenBackId === entry.id);
  for (const { takenBackId } of anew) {
    const entry = books.entry(takenBackId);
    for (const tankId of tanksOf(entry)) {
      const stated = statedAt(books, tankId, entry.at).filter(({ id }) => !removed.has(id));
      const behind = stated.slice(stated.findIndex((other) => indexOf(other) >= 0));
      if (indexOf(entry) < 0 || behind.length < 2) continue;
      for (const other of behind) if (indexOf(other) < 0) rows.push(asItIs(other));
      const slots = behind.map(indexOf).toSorted((a, b) => a - b);
      const inOrder = behind.map((other) => rows[indexOf(other)] as T);
      slots.forEach((slot, n) => {
        rows[slot] = inOrder[n] as T;
      });
    }
  }
  return rows;
};
