/** How far flights may be moved until no port is free for them, or their hull is on another flight: plain arithmetic on dates. */
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";

const MINUTE_MS = 60_000;
/** Instants are whole milliseconds, lengths of stays are not: less than this is no difference. */
const SAME_MS = 1000;

/** One flight at the dates that the forecast has. */
export interface Trip {
  readonly flight: Entity<"flight">;
  readonly departAt: number;
  readonly arriveAt: number;
  /** When it leaves the port. */
  readonly freeAt: number;
}

/** Flights that are or were under way, or will be; a lost one never comes to its port. */
export const tripsOf = (plan: PlanSnapshot, seen: Forecast): readonly Trip[] => {
  const expected = new Map(seen.flights.map((row) => [row.flightId, row]));
  return plan.flights
    .filter(({ status }) => status !== "cancelled" && status !== "lost")
    .map((flight) => {
      const { departAt, arriveAt } = expected.get(flight.id) ?? flight;
      return { flight, departAt, arriveAt, freeAt: arriveAt + flight.berthDays * DAY_MS };
    });
};

/** When a move, in whole minutes, first meets something, and with which flight. */
export interface Met {
  readonly minutes: number;
  readonly flightId: string;
}

/** Most tankers beyond the ports at any instant of the stays of moved flights, and the moved one that is there; 0: none. */
const crowdOf = (
  plan: PlanSnapshot,
  moved: readonly Trip[],
  others: readonly Trip[],
  shiftMs: number,
): { excess: number; flightId: string } => {
  let worst = { excess: 0, flightId: "" };
  const shifted = moved.map((trip) => ({ ...trip, arriveAt: trip.arriveAt + shiftMs, freeAt: trip.freeAt + shiftMs }));
  const all = [...others, ...shifted].filter(({ arriveAt, freeAt }) => freeAt > arriveAt + SAME_MS);
  for (const own of shifted) {
    const ports = plan.depots.find(({ id }) => id === own.flight.depotId)?.ports ?? Infinity;
    const here = all.filter(
      ({ flight, arriveAt, freeAt }) =>
        flight.depotId === own.flight.depotId && freeAt > own.arriveAt + SAME_MS && arriveAt < own.freeAt - SAME_MS,
    );
    for (const { arriveAt: begins } of here) {
      const at = Math.max(begins, own.arriveAt);
      const excess = here.filter(({ arriveAt, freeAt }) => arriveAt <= at && freeAt > at + SAME_MS).length - ports;
      if (excess > worst.excess) worst = { excess, flightId: own.flight.id };
    }
  }
  return worst;
};

/**
 * The first move of flights together in one direction (later 1, earlier −1), up to `most` minutes, at which one of them
 * finds more tankers at its depot than there are ports, and more than now; null: none.
 */
export const firstCrowded = (
  plan: PlanSnapshot,
  trips: readonly Trip[],
  flightIds: ReadonlySet<string>,
  direction: 1 | -1,
  most: number,
): Met | null => {
  const moved = trips.filter(({ flight }) => flightIds.has(flight.id));
  const others = trips.filter(({ flight }) => !flightIds.has(flight.id));
  const now = crowdOf(plan, moved, others, 0).excess;
  // Who is there at once changes only where a stay begins or ends with another.
  const marks = new Set([most]);
  for (const own of moved)
    for (const other of others) {
      if (other.flight.depotId !== own.flight.depotId) continue;
      for (const apartMs of [other.arriveAt - own.freeAt, other.freeAt - own.arriveAt]) {
        const minute = Math.floor((direction * apartMs) / MINUTE_MS);
        for (const mark of [minute, minute + 1]) if (mark > 0 && mark <= most) marks.add(mark);
      }
    }
  for (const minutes of [...marks].toSorted((a, b) => a - b)) {
    const { excess, flightId } = crowdOf(plan, moved, others, direction * minutes * MINUTE_MS);
    if (excess > now) return { minutes, flightId };
  }
  return null;
};

/**
 * The first move of flights together in one direction at which the hull of one of them is not back, turned around, from
 * the flight before (direction −1) or for the one after (1); null: none. One that is late already may move no minute.
 */
export const firstHullAway = (
  plan: PlanSnapshot,
  trips: readonly Trip[],
  flightIds: ReadonlySet<string>,
  direction: 1 | -1,
): Met | null => {
  const classOf = new Map(plan.craft.map(({ id, classId }) => [id, classId]));
  const turnaroundOf = new Map(plan.craftClasses.map(({ id, turnaroundDays }) => [id, turnaroundDays * DAY_MS]));
  let first: Met | null = null;
  for (const own of trips) {
    if (!flightIds.has(own.flight.id)) continue;
    const turnaroundMs = turnaroundOf.get(classOf.get(own.flight.craftId) ?? "") ?? 0;
    for (const other of trips) {
      if (flightIds.has(other.flight.id) || other.flight.craftId !== own.flight.craftId) continue;
      const isBefore = other.departAt < own.departAt;
      if (isBefore !== direction < 0) continue;
      const [earlier, later] = isBefore ? [other, own] : [own, other];
      const roomMs = later.departAt - earlier.freeAt - turnaroundMs + SAME_MS;
      const minutes = Math.max(1, Math.floor(roomMs / MINUTE_MS) + 1);
      if (first === null || minutes < first.minutes) first = { minutes, flightId: own.flight.id };
    }
  }
  return first;
};
