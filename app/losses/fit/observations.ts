/** The readings and transfers that a fit is made on, checked and in order of time. */
import { PlanningError } from "../../ground/failure.ts";
import { formatMinute } from "../../format/time.ts";
import type { Reading } from "../../ledger/journal.ts";
import { DAY_MS } from "../../ground/quantity.ts";

/** Mass into (+) or out of (−) the tank at an instant, taken as exactly known. */
export interface Transfer {
  readonly at: number;
  readonly massKg: number;
}

/** From one instant to another, both included. */
export interface Span {
  readonly fromAt: number;
  readonly untilAt: number;
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
  /**
   * Where the fitted rate was in force, in order of time; a reading outside is set apart, and the level begins anew in each,
   * so that nothing is assumed of what was lost between. Null: all along.
   */
  readonly stretches?: readonly Span[] | null;
  /** The rate in force: held for what is not fitted, the start for what is. */
  readonly rate: { readonly kPerDay: number; readonly cKgPerDay: number };
  /** Readings that the planner leaves out, by id. */
  readonly leftOutIds: readonly string[];
}

/** Readings in order under one rate without a break, and the transfers between them, in days since the first of them. */
export interface Stretch {
  readonly readings: readonly Reading[];
  readonly timeDays: readonly number[];
  readonly transfers: readonly { readonly timeDays: number; readonly massKg: number }[];
}

export interface Observations {
  /** One or more, none empty, in order of time. */
  readonly stretches: readonly Stretch[];
  /** Of the span, but not under the fitted rate. */
  readonly apart: readonly Reading[];
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
  for (const [index, reading] of readings.entries()) {
    if (reading.at === readings[index + 1]?.at) {
      refuse(`There are two readings at ${formatMinute(reading.at)}; leave one out or withdraw it.`, reading.id);
    }
  }
};

/** Needed beside one for the level at the start of each stretch. */
const tooFew = (fitted: FittedPart, readings: number, stretches: number): string | null => {
  const needed = readingsNeeded(fitted) - 1 + Math.max(1, stretches);
  if (readings >= needed) return null;
  const cannot =
    fitted === "k and c" && readings === 2 && stretches === 1
      ? "Two readings cannot tell k from c"
      : "There are too few readings";
  const apart = stretches > 1 ? ` in ${stretches} stretches under the fitted rate` : " in this span";
  return `${cannot}: ${readings}${apart}, ${needed} are needed to fit ${fitted}.`;
};

const stretchOf = (readings: readonly Reading[], transfers: readonly Transfer[]): Stretch => {
  const first = (readings[0] as Reading).at;
  const last = (readings.at(-1) as Reading).at;
  return {
    readings,
    timeDays: readings.map((reading) => (reading.at - first) / DAY_MS),
    // At one instant: inflows, then the reading, then outflows, as in the forecast.
    transfers: transfers
      .filter(({ at, massKg }) => (massKg > 0 ? at > first && at <= last : at >= first && at < last))
      .toSorted((a, b) => a.at - b.at)
      .map(({ at, massKg }) => ({ timeDays: (at - first) / DAY_MS, massKg })),
  };
};

/** Each reading in the first span that holds it: one at the edge of two tells of the time before it. */
const inStretches = (readings: readonly Reading[], spans: readonly Span[] | null): readonly Reading[][] => {
  if (spans === null) return readings.length === 0 ? [] : [[...readings]];
  const taken = new Set<Reading>();
  return spans
    .map(({ fromAt, untilAt }) => {
      const here = readings.filter((reading) => reading.at >= fromAt && reading.at <= untilAt && !taken.has(reading));
      for (const reading of here) taken.add(reading);
      return here;
    })
    .filter((here) => here.length > 0);
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
  const groups = inStretches(readings, request.stretches ?? null);
  const counted = new Set(groups.flat());
  const refusal = tooFew(request.fitted, counted.size, groups.length);
  if (refusal !== null) throw new PlanningError("refused", refusal, "readings");
  const messages: string[] = [];
  if (readings.some((reading, index) => reading !== used[index]))
    messages.push("The readings were not in order of time; they have been put in order.");
  return {
    stretches: groups.map((group) => stretchOf(group, request.transfers)),
    apart: readings.filter((reading) => !counted.has(reading)),
    messages,
  };
};
