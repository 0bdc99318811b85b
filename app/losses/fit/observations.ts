/** The readings and transfers that a fit is made on, checked and in order of time. */
import { PlanningError } from "../../contract/failure.ts";
import { formatMinute } from "../../ledger/time.ts";
import type { Reading } from "../../ledger/journal.ts";
import { DAY_MS } from "../../ledger/quantity.ts";

/** Mass into (+) or out of (−) the tank at an instant, taken as exactly known. */
export interface Transfer {
  readonly at: number;
  readonly massKg: number;
}

export type FittedPart = "k" | "c" | "k and c";

/** What a fit starts from. */
export interface FitRequest {
  readonly readings: readonly Reading[];
  readonly transfers: readonly Transfer[];
  /** Readings outside are left out. */
  readonly fromAt: number;
  readonly untilAt: number;
  /** What the tank can hold at the most, kg. */
  readonly holdsKg: number;
  readonly fitted: FittedPart;
  /** The rate in force: held for what is not fitted, the start for what is. */
  readonly rate: { readonly kPerDay: number; readonly cKgPerDay: number };
  /** Readings that the planner leaves out, by id. */
  readonly leftOutIds: readonly string[];
}

/** The readings in order, and for each step from one to the next the transfers between, in days since the first reading. */
export interface Observations {
  readonly readings: readonly Reading[];
  readonly timeDays: readonly number[];
  readonly transfers: readonly { readonly timeDays: number; readonly massKg: number }[];
  readonly messages: readonly string[];
}

/** Beyond this many σ a reading is flagged, or, above what the tank holds, refused. */
export const FLAGGED_BEYOND_SIGMA = 4;

/** Readings needed to fit so many parts beside the level at the start. */
export const readingsNeeded = (fitted: FittedPart): number => (fitted === "k and c" ? 3 : 2);

const refuse = (message: string, field: string): never => {
  throw new PlanningError("invalid input", message, field);
};

const checkReading = (reading: Reading, holdsKg: number): void => {
  const when = (): string => formatMinute(reading.at);
  if (!(Number.isFinite(reading.massKg) && reading.massKg >= 0))
    refuse(`The reading of ${when()} is not a mass.`, reading.id);
  if (!(reading.sigmaKg > 0 && Number.isFinite(reading.sigmaKg))) {
    refuse(`The reading of ${when()} has no uncertainty; give its standard deviation, above 0 kg.`, reading.id);
  }
  if (reading.massKg - FLAGGED_BEYOND_SIGMA * reading.sigmaKg > holdsKg) {
    refuse(`The reading of ${when()} (${reading.massKg} kg) is above what the tank holds (${holdsKg} kg).`, reading.id);
  }
};

const checkDuplicates = (readings: readonly Reading[]): void => {
  for (const [place, reading] of readings.entries()) {
    if (reading.at === readings[place + 1]?.at) {
      refuse(`There are two readings at ${formatMinute(reading.at)}; leave one out or withdraw it.`, reading.id);
    }
  }
};

/**
 * Withdrawn readings, those left out and those outside the span do not count. Throws "invalid input" for a reading without
 * uncertainty, above the tank or twice at one instant, and "refused" when too few are left.
 */
export const observe = (request: FitRequest): Observations => {
  const used = request.readings.filter(
    (reading) =>
      !reading.isWithdrawn &&
      !request.leftOutIds.includes(reading.id) &&
      reading.at >= request.fromAt &&
      reading.at <= request.untilAt,
  );
  for (const reading of used) checkReading(reading, request.holdsKg);
  const readings = used.toSorted((a, b) => a.at - b.at);
  checkDuplicates(readings);
  const first = readings[0];
  const last = readings.at(-1);
  const needed = readingsNeeded(request.fitted);
  if (first === undefined || last === undefined || readings.length < needed) {
    const cannot =
      request.fitted === "k and c" && readings.length === 2
        ? "Two readings cannot tell k from c"
        : "There are too few readings";
    throw new PlanningError(
      "refused",
      `${cannot}: ${readings.length} in this span, ${needed} are needed to fit ${request.fitted}.`,
      "readings",
    );
  }
  const messages: string[] = [];
  if (readings.some((reading, place) => reading !== used[place]))
    messages.push("The readings were not in order of time; they have been put in order.");
  return {
    readings,
    timeDays: readings.map((reading) => (reading.at - first.at) / DAY_MS),
    // At one instant: inflows, then the reading, then outflows, as in the forecast.
    transfers: request.transfers
      .filter(({ at, massKg }) => (massKg > 0 ? at > first.at && at <= last.at : at >= first.at && at < last.at))
      .toSorted((a, b) => a.at - b.at)
      .map(({ at, massKg }) => ({ timeDays: (at - first.at) / DAY_MS, massKg })),
    messages,
  };
};
