/** The greatest number of planned flights that can be left out together with every sortie still supplied. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Engine } from "../forecast/propagate.ts";
import { firstUnsupplied } from "./standing.ts";

export interface Spared {
  readonly flightIds: readonly string[];
  /** The search was carried to its end: more cannot be left out. */
  readonly isMost: boolean;
}

/** Forecasts that the search may take before it answers with the best found so far. */
const MAX_FORECASTS = 1000;

/**
 * Planned flights from a source that arrive before the horizon, by index. Firm and departed ones stay, and so do those
 * that draw at another depot: without one of them that depot would have more, and leaving out would not only take away.
 */
const candidatesOf = (plan: PlanSnapshot, engine: Engine): readonly number[] => {
  const rows = new Map(plan.flights.map((flight) => [flight.id, flight]));
  const { flightIds, flightArriveAt, horizonAt } = engine.run.plan;
  return flightIds.flatMap((id, index) => {
    const row = rows.get(id);
    const isFree = row?.status === "planned" && row.origin.kind === "source";
    return isFree && (flightArriveAt[index] ?? Infinity) <= horizonAt ? [index] : [];
  });
};

/**
 * Leaves out one flight after the other wherever that holds: a set to which nothing can be added, at one forecast a
 * flight. Yields after each; leaves the engine's losses at 0.
 */
function* oneByOne(
  candidates: readonly number[],
  flightIsLost: Uint8Array,
  holds: () => boolean,
): Generator<void, readonly number[]> {
  const left: number[] = [];
  for (const flight of candidates) {
    flightIsLost[flight] = 1;
    if (holds()) left.push(flight);
    else flightIsLost[flight] = 0;
    yield;
  }
  flightIsLost.fill(0);
  return left;
}

/**
 * Searches the sets of flights that can be left out, the largest first (branch and bound). Leaving out a flight from a
 * source only takes propellant away from later sorties, so a flight that cannot be left out beside some others cannot
 * be left out beside more: that cuts the search down, and past `mostForecasts` it is cut short. `engine` must find every sortie supplied; it is put back.
 * Yields after every forecast.
 */
export function* spareFlights(
  plan: PlanSnapshot,
  engine: Engine,
  mostForecasts: number = MAX_FORECASTS,
): Generator<void, Spared> {
  const { flightIsLost } = engine.input;
  let forecasts = 0;
  let best: readonly number[] = [];
  let isMost = true;
  const holds = (): boolean => {
    forecasts += 1;
    return firstUnsupplied(engine.go()) < 0;
  };
  function* search(left: readonly number[], open: readonly number[]): Generator<void, void> {
    const possible: number[] = [];
    for (const flight of open) {
      // Even if all that are still open could go, this branch would not beat the best.
      if (left.length + possible.length + (open.length - open.indexOf(flight)) <= best.length) return;
      if (forecasts >= mostForecasts) {
        isMost = false;
        return;
      }
      flightIsLost[flight] = 1;
      if (holds()) possible.push(flight);
      flightIsLost[flight] = 0;
      yield;
    }
    if (possible.length > 0 && left.length + 1 > best.length) best = [...left, possible[0] ?? 0];
    for (let n = 0; n < possible.length; n += 1) {
      if (left.length + possible.length - n <= best.length) return;
      const flight = possible[n] ?? 0;
      flightIsLost[flight] = 1;
      yield* search([...left, flight], possible.slice(n + 1));
      flightIsLost[flight] = 0;
    }
  }
  try {
    const candidates = candidatesOf(plan, engine);
    // Two good sets to begin with, so that the search need not look into what cannot beat them.
    const isLater = (a: number, b: number): number =>
      (engine.run.plan.flightArriveAt[b] ?? 0) - (engine.run.plan.flightArriveAt[a] ?? 0) || a - b;
    const latestFirst = candidates.toSorted(isLater);
    for (const order of [latestFirst, latestFirst.toReversed()]) {
      const left = yield* oneByOne(order, flightIsLost, holds);
      if (left.length > best.length) best = left;
    }
    yield* search([], candidates);
  } finally {
    flightIsLost.fill(0);
  }
  return { flightIds: best.toSorted((a, b) => a - b).map((flight) => engine.run.plan.flightIds[flight] ?? ""), isMost };
}
