/** One of the two ledgers as the comparison reads it: what is in force, what was taken back, what each level is. */
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import type { EntryKind, JournalEntry, Reading } from "../ledger/journal.ts";
import { MERGE_LABEL } from "./merge-label.ts";

/** A journal entry that is no counter-entry, in its ledger. */
export interface SideEntry {
  readonly entry: JournalEntry;
  readonly isInForce: boolean;
  /** Names the counter-entry that took it back; null: it is in force. */
  readonly takenBackBy: string | null;
  /** Taken back by undoing a merge that had brought it in: it counts as never having come. */
  readonly isUndoneMerge: boolean;
  /** Readings for which it stands. */
  readonly readings: readonly Reading[];
  /** Ids under which the same record was written before (a level booked anew, a redo), its own among them. */
  readonly aliases: ReadonlySet<string>;
}

/** What one entry in force moves in one tank. */
export interface SideMovement {
  readonly record: SideEntry;
  readonly at: number;
  readonly grams: number;
}

export interface Side {
  readonly document: LedgerDocument;
  readonly entries: ReadonlyMap<string, SideEntry>;
  /** In the order of writing. */
  readonly inForce: readonly SideEntry[];
  readonly readings: ReadonlyMap<string, Reading>;
  /** Movements in force of a tank, in order of time and writing. */
  readonly movements: (tankId: string) => readonly SideMovement[];
}

const statingKinds: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "reading", "closing"]);

/** Whether an entry states the level of the tanks that it touches. */
export const statesLevel = ({ kind }: JournalEntry): boolean => statingKinds.has(kind);

/** The tanks that an entry touches. */
export const tanksOf = (entry: JournalEntry): readonly string[] => [
  ...new Set(entry.postings.filter(({ account }) => account.kind === "tank").map(({ account }) => account.ownerId)),
];

/** Grams that an entry moves into (+) or out of (−) a tank. */
export const gramsOn = (entry: JournalEntry, tankId: string): number =>
  entry.postings.reduce(
    (sum, { account, grams }) => (account.kind === "tank" && account.ownerId === tankId ? sum + grams : sum),
    0,
  );

/** Sums by account and propellant, those of nothing left out, in an order of their own. */
export const sumsOf = (entry: JournalEntry): readonly (readonly [string, number])[] => {
  const sums = new Map<string, number>();
  for (const { account, propellantId, grams } of entry.postings) {
    const key = `${account.kind}/${account.ownerId}/${propellantId}`;
    sums.set(key, (sums.get(key) ?? 0) + grams);
  }
  return [...sums].filter(([, grams]) => grams !== 0).toSorted(([a], [b]) => (a < b ? -1 : 1));
};

/** What a record keeps when it is written again: a level its tanks, a movement all its masses. */
const lineOf = (entry: JournalEntry): string =>
  JSON.stringify([
    entry.at,
    entry.kind,
    entry.subjectKey,
    entry.note,
    statesLevel(entry) ? tanksOf(entry).toSorted() : sumsOf(entry),
  ]);

const readingsByEntry = (document: LedgerDocument) =>
  Map.groupBy(
    document.readings.filter((row) => !row.isWithdrawn && row.entryId !== null),
    (row) => row.entryId,
  );

const readEntries = (document: LedgerDocument): ReadonlyMap<string, SideEntry> => {
  const counters = new Map(document.entries.flatMap((row) => (row.reversesId === null ? [] : [[row.reversesId, row]])));
  const linked = readingsByEntry(document);
  const originals = document.entries.filter((row) => row.reversesId === null);
  // A gauge reading is known by its own id; a level booked twice at one instant may be another reading.
  const lines = Map.groupBy(originals, (row) => (row.kind === "reading" ? row.id : lineOf(row)));
  const aliases = new Map<string, ReadonlySet<string>>();
  for (const rows of lines.values()) {
    const ids = new Set(rows.map((row) => row.id));
    for (const row of rows) aliases.set(row.id, ids);
  }
  return new Map(
    originals.map((entry) => {
      const counter = counters.get(entry.id);
      const record: SideEntry = {
        entry,
        isInForce: counter === undefined,
        takenBackBy: counter === undefined ? null : `${counter.id}/${counter.author}/${counter.recordedAt}`,
        isUndoneMerge: counter?.note.startsWith(`undo: ${MERGE_LABEL}`) ?? false,
        readings: linked.get(entry.id) ?? [],
        aliases: aliases.get(entry.id) ?? new Set([entry.id]),
      };
      return [entry.id, record];
    }),
  );
};

const movementsByTank = (inForce: readonly SideEntry[]): ReadonlyMap<string, readonly SideMovement[]> => {
  const byTank = new Map<string, SideMovement[]>();
  for (const record of inForce)
    for (const tankId of tanksOf(record.entry)) {
      const movements = byTank.get(tankId) ?? [];
      movements.push({ record, at: record.entry.at, grams: gramsOn(record.entry, tankId) });
      byTank.set(tankId, movements);
    }
  for (const movements of byTank.values()) movements.sort((a, b) => a.at - b.at);
  return byTank;
};

export const readSide = (document: LedgerDocument): Side => {
  const entries = readEntries(document);
  const inForce = [...entries.values()].filter((record) => record.isInForce);
  const byTank = movementsByTank(inForce);
  return {
    document,
    entries,
    inForce,
    readings: new Map(document.readings.map((row) => [row.id, row])),
    movements: (tankId) => byTank.get(tankId) ?? [],
  };
};

/** Movements of one instant in the order in which they count: what moves, then what states, each as it was written. */
export const inOrderAtOnce = (movements: readonly SideMovement[]): readonly SideMovement[] => {
  const placeOf = ({ record }: SideMovement): number => Number(statesLevel(record.entry));
  return movements.length < 2 ? movements : movements.toSorted((a, b) => placeOf(a) - placeOf(b));
};

const statedLevels = new WeakMap<Side, Map<string, ReadonlyMap<string, number>>>();

/** By entry: the level that it states, less what was merely drawn at that very instant; what flowed in then is in it. */
const levelsOf = (side: Side, tankId: string): ReadonlyMap<string, number> => {
  const bySide = statedLevels.get(side) ?? new Map<string, ReadonlyMap<string, number>>();
  statedLevels.set(side, bySide);
  const known = bySide.get(tankId);
  if (known !== undefined) return known;
  const levels = new Map<string, number>();
  let level = 0;
  for (const atOnce of Map.groupBy(side.movements(tankId), ({ at }) => at).values()) {
    let drawn = 0;
    for (const { record, grams } of inOrderAtOnce(atOnce)) {
      if (!statesLevel(record.entry)) {
        if (grams > 0) level += grams;
        else drawn += grams;
      } else {
        level += grams;
        levels.set(record.entry.id, level);
      }
    }
    level += drawn;
  }
  bySide.set(tankId, levels);
  return levels;
};

/**
 * The level that an entry in force states of a tank, grams, less what was merely drawn at that very instant. It stays the
 * same when the booking that leads to it is made anew.
 */
export const statedGrams = (side: Side, entry: JournalEntry, tankId: string): number =>
  levelsOf(side, tankId).get(entry.id) ?? 0;

/** What an entry in force says, whatever its id: equal texts say the same. */
export const contentOf = (side: Side, { entry }: SideEntry): string =>
  JSON.stringify([
    entry.at,
    entry.kind,
    entry.subjectKey,
    statesLevel(entry)
      ? tanksOf(entry)
          .toSorted()
          .map((tankId) => [tankId, statedGrams(side, entry, tankId)])
      : sumsOf(entry),
  ]);
