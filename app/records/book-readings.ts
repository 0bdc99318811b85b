/**
 * Imported gauge readings taken into the books: in order of time, each on the books as the one before leaves them, as one step.
 * Books that are not open are opened with the first reading of their tank where it is said from which source that came.
 */
import { PlanningError } from "../ground/failure.ts";
import { formatMass, formatMassChange } from "../format/mass.ts";
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Reading } from "../ledger/journal.ts";
import { toGrams, toKg } from "../ledger/journal.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { formatMinute } from "../format/time.ts";
import { counted, listed } from "../words/counted.ts";
import { composeSteps } from "./compose-steps.ts";
import { line } from "./postings.ts";
import { recordEntry } from "./record-entry.ts";
import { recordReading } from "./record-reading.ts";
import type { Recorder } from "./recorder.ts";

/** Each is booked on its own; more of them would keep the ledger for minutes. */
const MAX_BOOKED = 2000;
const MAX_NAMED = 10;

/** The field at which it is refused that books are not open. */
export const OPEN_FROM = "openFromSourceId";

type MakeStep = (books: LedgerBooks) => Step;

/** Tanks of these readings whose books are not open, by id. */
const closedOf = (store: LedgerBooks, readings: readonly Reading[]): ReadonlySet<string> => {
  const open = new Set(store.openings().map(({ tankId }) => tankId));
  return new Set(readings.map(({ tankId }) => tankId).filter((tankId) => !open.has(tankId)));
};

const refuseClosed = (entities: EntitySet, closed: ReadonlySet<string>): void => {
  if (closed.size === 0) return;
  const names = [...closed].map((tankId) => findEntity(entities, "tank", tankId)?.name ?? tankId);
  const isOne = names.length === 1;
  throw new PlanningError(
    "refused",
    `The books of ${listed(names, MAX_NAMED)} are not open: a reading would book all that is in ${isOne ? "it" : "them"} as unaccounted. State ${isOne ? "its opening level" : "their opening levels"} first.`,
    OPEN_FROM,
  );
};

/** The opening of a tank's books with what a reading found, as come from a source. */
const opening =
  (entities: EntitySet, { tankId, at, massKg }: Reading, sourceId: string, recorder: Recorder): MakeStep =>
  (books) => {
    const tank = findEntity(entities, "tank", tankId);
    const grams = toGrams(massKg);
    if (tank === null || grams === 0)
      throw new PlanningError(
        "refused",
        `The books of ${tank?.name ?? tankId} cannot open with its first reading, ${formatMass(massKg)} on ${formatMinute(at)}: the books of an empty tank open with its first delivery. Leave that reading out.`,
        OPEN_FROM,
      );
    const postings = [
      line("tank", tankId, tank.propellantId, grams),
      line("source", sourceId, tank.propellantId, -grams),
    ];
    const entry = { id: recorder.newId(), at, kind: "opening", subjectKey: null, note: "", postings } as const;
    return recordEntry(books, { ...entry, postings: [...postings] }, recorder);
  };

/**
 * `openFromSourceId`: where what is in tanks whose books are not open came from; each opens with its first reading. Throws
 * "refused", naming the tank or reading: books that are not open where no source is named, a reading before its books open,
 * too many at once; "not found" for a source that is not there.
 */
export const bookReadings = (
  store: LedgerBooks,
  readings: readonly Reading[],
  label: string,
  recorder: Recorder,
  openFromSourceId: string | null = null,
): Step => {
  if (readings.length > MAX_BOOKED)
    throw new PlanningError(
      "refused",
      `At most ${MAX_BOOKED} readings are booked at once; these are ${readings.length}. Bring them in without booking, and book those that the books should follow.`,
    );
  const entities = store.entities();
  const closed = new Set(closedOf(store, readings));
  if (openFromSourceId === null) refuseClosed(entities, closed);
  else if (findEntity(entities, "source", openFromSourceId) === null)
    throw new PlanningError("not found", `There is no source "${openFromSourceId}".`, OPEN_FROM);
  const makes = readings
    .toSorted((a, b) => a.at - b.at)
    .flatMap((row): readonly MakeStep[] => {
      const { id, tankId, at, massKg, sigmaKg, note } = row;
      const book: MakeStep = (books) =>
        recordReading(books, { id, tankId, at, massKg, sigmaKg, note, takeIntoBooks: true }, recorder);
      const isFirst = openFromSourceId !== null && closed.delete(tankId);
      return isFirst ? [opening(entities, row, openFromSourceId, recorder), book] : [book];
    });
  return composeSteps(store, makes, label);
};

const openingWords = (entities: EntitySet, step: Pick<Step, "entries">): readonly string[] =>
  step.entries
    .filter(({ kind }) => kind === "opening")
    .map(({ at, postings }) => {
      const ownerOf = (kind: "tank" | "source") =>
        postings.find(({ account }) => account.kind === kind)?.account.ownerId;
      const tank = findEntity(entities, "tank", ownerOf("tank") ?? "");
      const source = findEntity(entities, "source", ownerOf("source") ?? "");
      const grams = postings.find(({ account }) => account.kind === "tank")?.grams ?? 0;
      return `The books of ${tank?.name ?? ""} open with ${formatMass(toKg(grams))} on ${formatMinute(at)}, as come from ${source?.name ?? ""}.`;
    });

/**
 * What becomes of imported readings: which books open, how many readings were booked, which, and what of each the loss model
 * does not account for.
 */
export const bookingWords = (entities: EntitySet, step: Pick<Step, "readings" | "entries">): string =>
  [...openingWords(entities, step), readingWords(entities, step)].join(" ");

const readingWords = (entities: EntitySet, step: Pick<Step, "readings" | "entries">): string => {
  const { readings } = step;
  const entries = new Map(step.entries.map((entry) => [entry.id, entry]));
  const booked = readings.filter(({ entryId }) => entryId !== null);
  const rest = readings.length - booked.length;
  if (booked.length === 0)
    return `${counted(readings.length, "reading")} ${readings.length === 1 ? "stands" : "stand"} beside the books: no level and no forecast moves by ${readings.length === 1 ? "it" : "them"}.`;
  const named = booked.map(({ tankId, at, entryId }) => {
    const name = findEntity(entities, "tank", tankId)?.name ?? tankId;
    const grams = (entries.get(entryId ?? "")?.postings ?? []).reduce(
      (sum, { account, grams: own }) => (account.kind === "unaccounted" ? sum - own : sum),
      0,
    );
    return `${name} on ${formatMinute(at)} (${grams === 0 ? "as the loss model says" : `${formatMassChange(toKg(grams))} unaccounted`})`;
  });
  const alike = rest === 0 ? "" : ` ${counted(rest, "reading")} said what the books say and moved nothing.`;
  return `${counted(booked.length, "reading")} booked: ${listed(named, MAX_NAMED)}.${alike}`;
};
