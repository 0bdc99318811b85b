/** What each side did that the other does not have: records written and taken back, readings, statuses. */
import type { JournalEntry, Reading } from "../ledger/journal.ts";
import { type Side, type SideEntry, contentOf, readSide, statesLevel, tanksOf } from "./side.ts";
import { type StatusNews, statusNews } from "./status-news.ts";
import type { LedgerDocument } from "../ledger/ledger-view.ts";

/**
 * One thing that one side did. `write`: a record that only it has in force. `take back`: a record in force on the other
 * side alone, which this one took back (`record` is the other side's).
 */
export type News =
  | { readonly did: "write" | "take back"; readonly record: SideEntry }
  | { readonly did: "read" | "withdraw"; readonly reading: Reading }
  | { readonly did: "status"; readonly status: StatusNews };

export interface Comparison {
  readonly ours: Side;
  readonly theirs: Side;
  /** Id of an entry in force there → id of the one here that says the same. */
  readonly alike: ReadonlyMap<string, string>;
  readonly ourNews: readonly News[];
  readonly theirNews: readonly News[];
  /** Readings that both have, of the same id or saying the same. */
  readonly alikeReadings: number;
}

/** Our entry that books the same gauge reading as theirs; null: none does. */
const bookingHere = ({ entry, readings }: SideEntry, ours: Side): string | null => {
  for (const { id } of entry.kind === "reading" ? readings : []) {
    const entryId = ours.readings.get(id)?.entryId ?? null;
    const booking = entryId === null ? undefined : ours.entries.get(entryId);
    if (booking?.isInForce === true && isSameLevel(entry, booking.entry)) return booking.entry.id;
  }
  return null;
};

/** Two statements of one level, that may have been booked anew since: what was measured stands in the reading. */
const isSameLevel = (a: JournalEntry, b: JournalEntry): boolean =>
  statesLevel(a) && a.kind === b.kind && a.at === b.at && tanksOf(a).toSorted().join() === tanksOf(b).toSorted().join();

/** Whether another level of one of its tanks is stated at the same instant: then neither is known by the level alone. */
const isCrowded = (side: Side, entry: JournalEntry): boolean =>
  tanksOf(entry).some(
    (tankId) =>
      side.movements(tankId).filter(({ at, record }) => at === entry.at && statesLevel(record.entry)).length > 1,
  );

/** Pairs what says the same: by id, by the gauge reading that it books, by what it says. */
const pairAlike = (ours: Side, theirs: Side): Map<string, string> => {
  const alike = new Map<string, string>();
  const taken = new Set<string>();
  const pair = (theirId: string, ourId: string): void => {
    alike.set(theirId, ourId);
    taken.add(ourId);
  };
  const ourContents = new Map(ours.inForce.map((record) => [record.entry.id, contentOf(ours, record)]));
  const theirContents = new Map(theirs.inForce.map((record) => [record.entry.id, contentOf(theirs, record)]));
  const saysTheSame = (theirId: string, ourId: string): boolean =>
    ourContents.get(ourId) === theirContents.get(theirId);
  for (const { entry } of theirs.inForce) {
    const here = ours.entries.get(entry.id);
    if (here?.isInForce !== true) continue;
    const isMeant = isSameLevel(entry, here.entry) && (isCrowded(ours, entry) || isCrowded(theirs, entry));
    if (saysTheSame(entry.id, entry.id) || isMeant) pair(entry.id, entry.id);
  }
  for (const record of theirs.inForce) {
    if (alike.has(record.entry.id)) continue;
    const ourId = bookingHere(record, ours);
    if (ourId !== null && !taken.has(ourId)) pair(record.entry.id, ourId);
  }
  const left = Map.groupBy(
    ours.inForce.filter(({ entry }) => !taken.has(entry.id)).map(({ entry }) => entry.id),
    (id) => ourContents.get(id) ?? "",
  );
  for (const { entry } of theirs.inForce) {
    if (alike.has(entry.id)) continue;
    const ourId = left.get(theirContents.get(entry.id) ?? "")?.shift();
    if (ourId !== undefined) pair(entry.id, ourId);
  }
  return alike;
};

/** Who did something about a record that is in force on one side alone: that side by writing it, the other by taking it back. */
type Doer = "holder" | "other" | "both";

const doerOf = (record: SideEntry, holder: Side, other: Side): Doer => {
  const same = other.entries.get(record.entry.id);
  if (same !== undefined) {
    if (same.isInForce) return "both";
    return same.isUndoneMerge ? "holder" : "other";
  }
  // Its readings are there, its booking is not: it was taken back, or left out on purpose.
  if (record.readings.length > 0 && record.readings.every(({ id }) => other.readings.has(id))) return "other";
  const isGone = [...record.aliases].some((id) => {
    const alias = other.entries.get(id);
    if (alias === undefined || alias.isInForce || alias.isUndoneMerge) return false;
    // Taken back before the two went apart: no news.
    return alias.takenBackBy !== holder.entries.get(id)?.takenBackBy;
  });
  return isGone ? "both" : "holder";
};

const entryNews = (
  held: readonly SideEntry[],
  holder: Side,
  other: Side,
): { readonly holder: News[]; readonly other: News[] } => {
  const news = { holder: [] as News[], other: [] as News[] };
  for (const record of held) {
    const doer = doerOf(record, holder, other);
    if (doer !== "other") news.holder.push({ did: "write", record });
    const isTakenBack = doer === "other" || (doer === "both" && other.entries.get(record.entry.id)?.isInForce !== true);
    if (isTakenBack) news.other.push({ did: "take back", record });
  }
  return news;
};

const measuredOf = ({ tankId, at, massKg, sigmaKg }: Reading): string => JSON.stringify([tankId, at, massKg, sigmaKg]);

const isSameReading = (a: Reading, b: Reading): boolean => measuredOf(a) === measuredOf(b) && a.note === b.note;

/** Ids of readings that come or go with their entry. */
const withEntry = (news: readonly News[]): ReadonlySet<string> =>
  new Set(news.flatMap((item) => (item.did === "write" ? item.record.readings.map((row) => row.id) : [])));

/** Readings that only one side has, and that the other has otherwise; withdrawals. From the side of `mine`. */
const readingNews = (mine: Side, other: Side, written: ReadonlySet<string>): News[] => {
  const measured = new Set([...other.readings.values()].filter((row) => !row.isWithdrawn).map(measuredOf));
  return [...mine.readings.values()].flatMap((row): News[] => {
    const known = other.readings.get(row.id);
    if (known === undefined || !isSameReading(row, known)) {
      const isAlike = !row.isWithdrawn && measured.has(measuredOf(row));
      const isOver = row.isWithdrawn && known !== undefined;
      return isAlike || isOver || written.has(row.id) ? [] : [{ did: "read", reading: row }];
    }
    return row.isWithdrawn && !known.isWithdrawn ? [{ did: "withdraw", reading: known }] : [];
  });
};

/** Compares two ledgers of one beginning. */
export const compareLedgers = (ourDocument: LedgerDocument, theirDocument: LedgerDocument): Comparison => {
  const ours = readSide(ourDocument);
  const theirs = readSide(theirDocument);
  const alike = pairAlike(ours, theirs);
  const paired = new Set(alike.values());
  const here = entryNews(
    ours.inForce.filter(({ entry }) => !paired.has(entry.id)),
    ours,
    theirs,
  );
  const there = entryNews(
    theirs.inForce.filter(({ entry }) => !alike.has(entry.id)),
    theirs,
    ours,
  );
  const ourEntries = [...here.holder, ...there.other];
  const theirEntries = [...there.holder, ...here.other];
  const ourReadings = readingNews(ours, theirs, withEntry(ourEntries));
  const theirReadings = readingNews(theirs, ours, withEntry(theirEntries));
  const status = statusNews(ours, theirs);
  const newReadings = theirReadings.filter(({ did }) => did === "read").length + withEntry(theirEntries).size;
  return {
    ours,
    theirs,
    alike,
    ourNews: [...ourEntries, ...ourReadings, ...status.ours],
    theirNews: [...theirEntries, ...theirReadings, ...status.theirs],
    alikeReadings: Math.max(0, theirs.readings.size - newReadings),
  };
};

/** Whether an entry speaks of a flight's way. */
export const isOfFlight = ({ kind }: JournalEntry): boolean =>
  kind === "departure" || kind === "arrival" || kind === "loss of flight";

/** Whether an entry speaks of a sortie. */
export const isOfSortie = ({ kind }: JournalEntry): boolean => kind === "loading" || kind === "return";
