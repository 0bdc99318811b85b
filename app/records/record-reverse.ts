/** Takes a record back: its entry by a counter-entry, and the flight or sortie it spoke of to what it was before. */
import type { RecordInput } from "./record-input.ts";
import { formatMinute } from "../format/time.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Change, EntitySet } from "../entity/entities.ts";
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
import type { EntryKind, JournalEntry } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { entriesOf } from "../ledger/entries-of.ts";
import { refuseLaterRecord } from "./later-record.ts";
import { refuseBurnedLessThanNothing } from "./refuse-correction.ts";
import { withRestatement } from "./restate.ts";
import { flightEverywhere, sortieEverywhere } from "./subject.ts";

/** For each kind of entry that made a status: that status, and the one before it. */
const flightStatus: { readonly [K in EntryKind]?: readonly [after: Flight["status"], before: Flight["status"]] } = {
  departure: ["departed", "planned"],
  arrival: ["arrived", "departed"],
  "loss of flight": ["lost", "departed"],
};
const sortieStatus: { readonly [K in EntryKind]?: readonly [after: Sortie["status"], before: Sortie["status"]] } = {
  loading: ["departed", "planned"],
  return: ["flown", "departed"],
};

/** Throws "refused", with the way out, where a later record of the flight or sortie rests on an entry. */
export const refuseOverruled = (entities: EntitySet, { kind, subjectKey }: JournalEntry): void => {
  const flight = flightStatus[kind];
  const sortie = sortieStatus[kind];
  const rows = flight === undefined ? (sortie === undefined ? [] : entities.sortie) : entities.flight;
  const after = (flight ?? sortie)?.[0];
  for (const row of rows) if (row.key === subjectKey && row.status !== after) refuseLaterRecord(row);
};

const statusChanges = (entities: EntitySet, entry: JournalEntry): Change[] => {
  const { kind, subjectKey } = entry;
  const flight = flightStatus[kind];
  const sortie = sortieStatus[kind];
  if (subjectKey === null) return [];
  refuseOverruled(entities, entry);
  if (flight !== undefined) return flightEverywhere(entities, subjectKey, (row) => ({ ...row, status: flight[1] }));
  if (sortie !== undefined) return sortieEverywhere(entities, subjectKey, (row) => ({ ...row, status: sortie[1] }));
  return [];
};

/** The other entries of one arrival: a metered handover is written stretch by stretch. */
const siblings = (books: RecordBooks, entry: JournalEntry): readonly string[] => {
  if (entry.kind !== "arrival" || entry.subjectKey === null) return [];
  const { entries } = entriesOf(books, entry.subjectKey);
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  return entries.flatMap(({ id, kind }) => (kind === "arrival" && id !== entry.id && !gone.has(id) ? [id] : []));
};

/**
 * An entry taken back so that the right one can take its place. Throws "not found", "refused" for a counter-entry or where a
 * later record rests on this one.
 */
export const takeBackEntry = (books: RecordBooks, input: RecordInput<"record.reverse">, recorder: Recorder): Step => {
  const entry = books.entry(input.entryId);
  if (entry.kind === "reversal")
    throw new PlanningError("refused", "A reversal cannot be reversed; record what happened anew.", "entryId");
  const changes = statusChanges(books.entities(), entry);
  const { flight, sortie } = books.entities();
  const subject = [...flight, ...sortie].find(({ key }) => key === entry.subjectKey)?.name ?? entry.subjectKey;
  const label = `Reverse ${entry.kind}${subject === null ? "" : ` of ${subject}`}`;
  const reversedEntryIds = [entry.id, ...siblings(books, entry)];
  const draft = { label, reason: input.reason.slice(0, 500), changes, reversedEntryIds };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};

/**
 * An entry taken back for good. Throws what {@link takeBackEntry} throws, and "refused" where a sortie that flew later would
 * have come home with more than it left with.
 */
export const recordReverse = (books: RecordBooks, input: RecordInput<"record.reverse">, recorder: Recorder): Step => {
  const step = takeBackEntry(books, input, recorder);
  refuseBurnedLessThanNothing(books.entities(), step);
  return step;
};

/** Withdraws a reading found to be wrong, and takes back its booking if it has one of its own. */
export const recordWithdrawal = (
  books: RecordBooks,
  input: RecordInput<"record.withdrawReading">,
  recorder: Recorder,
): Step => {
  const reading = books.readings().find((row) => row.id === input.readingId);
  if (reading === undefined)
    throw new PlanningError("not found", `There is no reading ${input.readingId}.`, "readingId");
  if (reading.isWithdrawn) throw new PlanningError("refused", "This reading was withdrawn already.", "readingId");
  const entry = reading.entryId === null ? null : books.entry(reading.entryId);
  if (entry?.kind === "closing")
    throw new PlanningError(
      "refused",
      "This reading is part of a booking of boil-off. Reverse that and book again without it.",
      "readingId",
    );
  const tank = books.entities().tank.find(({ id }) => id === reading.tankId);
  const draft = {
    label: `Withdraw reading${tank === undefined ? "" : ` of ${tank.name}`}, ${formatMinute(reading.at)}`,
    reason: input.reason.slice(0, 500),
    withdrawnReadingIds: [reading.id],
    reversedEntryIds: entry === null ? [] : [entry.id],
  };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
