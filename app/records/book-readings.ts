/** Imported gauge readings taken into the books: in order of time, each on the books as the one before leaves them, as one step. */
import { PlanningError } from "../ground/failure.ts";
import { formatMassChange } from "../format/mass.ts";
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Reading } from "../ledger/journal.ts";
import { toKg } from "../ledger/journal.ts";
import type { LedgerBooks, Step } from "../ledger/books.ts";
import { formatMinute } from "../format/time.ts";
import { counted, listed } from "../words/counted.ts";
import { composeSteps } from "./compose-steps.ts";
import { recordReading } from "./record-reading.ts";
import type { Recorder } from "./recorder.ts";

/** Each is booked on its own; more of them would keep the ledger for minutes. */
const MAX_BOOKED = 2000;
const MAX_NAMED = 10;

/** Throws "refused", naming the reading: a tank whose books are not open, one before its opening, too many at once. */
export const bookReadings = (
  store: LedgerBooks,
  readings: readonly Reading[],
  label: string,
  recorder: Recorder,
): Step => {
  if (readings.length > MAX_BOOKED)
    throw new PlanningError(
      "refused",
      `At most ${MAX_BOOKED} readings are booked at once; these are ${readings.length}. Bring them in without booking, and book those that the books should follow.`,
    );
  const rows = readings.toSorted((a, b) => a.at - b.at);
  return composeSteps(
    store,
    rows.map(
      ({ id, tankId, at, massKg, sigmaKg, note }) =>
        (books) =>
          recordReading(books, { id, tankId, at, massKg, sigmaKg, note, takeIntoBooks: true }, recorder),
    ),
    label,
  );
};

/** What became of imported readings: how many were booked, which, and what of each the loss model does not account for. */
export const bookingWords = (entities: EntitySet, step: Pick<Step, "readings" | "entries">): string => {
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
