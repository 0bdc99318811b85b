/** A record of a flight or sortie as whoever wrote it down stated it: read back from the entries that stand in the books. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
import { entriesOf } from "../ledger/entries-of.ts";
import { type AccountKind, type JournalEntry, type Posting, toKg } from "../ledger/journal.ts";
import { refuseOverruled } from "./record-reverse.ts";
import type { RecordBooks } from "./recorder.ts";

/** Records of flights and sorties that are put right in their own form. */
export type SubjectRecord = "record.departure" | "record.arrival" | "record.loss" | "record.loading" | "record.return";

/** A record, and what it was made from. */
export type RecordedAs = {
  readonly [N in SubjectRecord]: { readonly record: N; readonly input: RecordInput<N> };
}[SubjectRecord];

type Books = Pick<RecordBooks, "entities" | "entry" | "journal">;

/** Grams by owner (or, of `by` "propellantId", by propellant) on accounts of a kind, over all these entries. */
const sums = (
  entries: readonly JournalEntry[],
  keyOf: (posting: Posting) => string | null,
): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  for (const posting of entries.flatMap(({ postings }) => postings)) {
    const key = keyOf(posting);
    if (key !== null) found.set(key, (found.get(key) ?? 0) + posting.grams);
  }
  return found;
};

/** Masses above nothing by propellant, kg: `sign` −1 of what went out of the account. */
const byPropellant = (
  entries: readonly JournalEntry[],
  kind: AccountKind,
  isMeant: (posting: Posting) => boolean = () => true,
) =>
  [...sums(entries, (p) => (p.account.kind === kind && isMeant(p) ? p.propellantId : null))]
    .filter(([, grams]) => grams > 0)
    .map(([propellantId, grams]) => ({ propellantId, massKg: toKg(grams) }));

/** Masses above nothing by tank, kg, that came in (1) or went out (−1). */
const byTank = (entries: readonly JournalEntry[], sign: 1 | -1, isMeant: (tankId: string) => boolean = () => true) =>
  [...sums(entries, ({ account }) => (account.kind === "tank" && isMeant(account.ownerId) ? account.ownerId : null))]
    .filter(([, grams]) => grams * sign > 0)
    .map(([tankId, grams]) => ({ tankId, massKg: toKg(grams * sign) }));

/** The end of an event is that of its last entry: of a metered handover the one that carries all that did not flow. */
const latest = (entries: readonly JournalEntry[]): JournalEntry => {
  const [first, ...rest] = entries;
  if (first === undefined) throw new PlanningError("not found", "There is no such record.", "entryId");
  return rest.reduce((last, entry) => (entry.at >= last.at ? entry : last), first);
};

const departureOf = (flight: Flight, entries: readonly JournalEntry[]): RecordedAs => {
  const { at, note } = latest(entries);
  const loads = byPropellant(entries, "transit").map(({ propellantId, massKg }) => ({
    propellantId,
    loadedKg: massKg,
  }));
  const drawn = flight.origin.kind === "depot" ? { drawn: byTank(entries, -1) } : {};
  return { record: "record.departure", input: { flightId: flight.id, at, loads, ...drawn, note } };
};

const arrivalOf = (flight: Flight, entries: readonly JournalEntry[]): RecordedAs => {
  const { at, note } = latest(entries);
  const course = entries.flatMap((entry) => {
    const { sinceAt } = entry;
    if (sinceAt === undefined) return [];
    return byTank([entry], 1).map((row) => ({ ...row, fromAt: sinceAt, untilAt: entry.at }));
  });
  // A handover that was metered began when the flight arrived, which may be before anything flowed.
  const metered = course.length === 0 ? {} : { sinceAt: Math.min(flight.arriveAt, at), course };
  return {
    record: "record.arrival",
    input: {
      flightId: flight.id,
      at,
      ...metered,
      taken: byTank(entries, 1),
      handoverLoss: byPropellant(entries, "handover loss"),
      leftAboard: byPropellant(entries, "residual"),
      vented: byPropellant(entries, "vented"),
      note,
    },
  };
};

const lossOf = (flight: Flight, entries: readonly JournalEntry[]): RecordedAs => {
  const { at, note } = latest(entries);
  return { record: "record.loss", input: { flightId: flight.id, at, note } };
};

const loadingOf = (sortie: Sortie, entries: readonly JournalEntry[], books: Books): RecordedAs => {
  const { at, note } = latest(entries);
  const atDepot = new Set(books.entities().tank.flatMap(({ id, ownerKind }) => (ownerKind === "depot" ? [id] : [])));
  return {
    record: "record.loading",
    input: {
      sortieId: sortie.id,
      at,
      drawn: byTank(entries, -1, (tankId) => atDepot.has(tankId)),
      handoverLoss: byPropellant(entries, "handover loss"),
      note,
    },
  };
};

/** What came home: what the lander's tanks took of what was under way. */
const returnOf = (sortie: Sortie, entries: readonly JournalEntry[]): RecordedAs => {
  const { at, note } = latest(entries);
  return {
    record: "record.return",
    input: { sortieId: sortie.id, at, aboard: byPropellant(entries, "tank"), note },
  };
};

const ofFlight: { readonly [kind: string]: typeof departureOf } = {
  departure: departureOf,
  arrival: arrivalOf,
  "loss of flight": lossOf,
};

const ofSortie: { readonly [kind: string]: typeof loadingOf } = { loading: loadingOf, return: returnOf };

/**
 * What an entry of a flight or sortie was recorded as. `planCaseId`: the case whose row it then names; where that has none, or
 * it is left out, any. Throws "not found"; "refused", with the way out, where it was reversed already, a later record rests on
 * it, or it is of another kind.
 */
export const recordedAs = (books: Books, entryId: string, planCaseId: string | null = null): RecordedAs => {
  const entry = books.entry(entryId);
  const { kind, subjectKey } = entry;
  const readFlight = ofFlight[kind];
  const readSortie = ofSortie[kind];
  if (subjectKey === null || (readFlight === undefined && readSortie === undefined))
    throw new PlanningError(
      "refused",
      `An entry of the kind “${kind}” has no form of its own to put it right. Reverse it, and record what happened.`,
      "entryId",
    );
  const all = entriesOf(books, subjectKey).entries;
  const gone = new Set(all.map(({ reversesId }) => reversesId));
  if (gone.has(entryId))
    throw new PlanningError(
      "refused",
      "This entry has been reversed already. Put right the one that stands in its place, or record anew what happened.",
      "entryId",
    );
  const entities = books.entities();
  refuseOverruled(entities, entry);
  const standing = all.filter((row) => row.kind === kind && !gone.has(row.id)).toSorted((a, b) => a.at - b.at);
  const ofCase = <R extends { readonly key: string; readonly planCaseId: string }>(rows: readonly R[]): R => {
    const found = rows.filter(({ key }) => key === subjectKey);
    const row = found.find((each) => each.planCaseId === planCaseId) ?? found[0];
    if (row === undefined)
      throw new PlanningError("not found", `There is no flight or sortie with the key ${subjectKey} any more.`);
    return row;
  };
  return readFlight === undefined
    ? (readSortie ?? returnOf)(ofCase(entities.sortie), standing, books)
    : readFlight(ofCase(entities.flight), standing);
};
