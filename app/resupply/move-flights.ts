/**
 * Planned flights moved to other arrival instants until every sortie is held: the exact engine tries each move, the best
 * few partial ones are carried on. Finds plans; that none with fewer moves holds is not claimed of what it finds.
 */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Engine } from "../forecast/propagate.ts";
import type { Run } from "../forecast/run-state.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Trip } from "./room-to-move.ts";
import { isHeld, lacking } from "./proposal.ts";

/** Instants tried for one flight, those nearest before the first sortie that is not held. */
const MAX_INSTANTS = 12;
const BEAM = 5;
/** Instants are whole milliseconds, lengths of stays are not: less than this is no difference. */
const SAME_MS = 1000;
const MAX_MOVES = 4;

/** Arrival by flight, of those that are moved. */
export type Moves = ReadonlyMap<string, number>;

export interface MoveScene {
  readonly plan: PlanSnapshot;
  readonly engine: Engine;
  readonly goal: "supplied" | "flies";
  readonly untilAt: number | null;
  /** All flights at the dates that the forecast has. */
  readonly trips: readonly Trip[];
  readonly movable: readonly Entity<"flight">[];
  /** Rising, by depot. */
  readonly instants: ReadonlyMap<string, readonly number[]>;
  /** Runs of the engine that may still be made: trying ends with them, whoever tries. */
  readonly runs: { left: number };
  shouldStop(): boolean;
}

/** How a run stands: the first sortie that is not held, how many are not, and what the first lacks. */
interface Standing {
  readonly sortie: number;
  readonly missing: number;
  readonly lackKg: number;
}

const isAsked = (scene: MoveScene, run: Run, sortie: number): boolean =>
  scene.untilAt === null || (run.plan.sortieLoadAt[sortie] ?? 0) <= scene.untilAt;

const standingOf = (scene: MoveScene, run: Run): Standing => {
  let first = -1;
  let missing = 0;
  for (let sortie = 0; sortie < run.plan.sortieIds.length; sortie += 1) {
    if (!isAsked(scene, run, sortie) || isHeld(run, sortie, scene.goal)) continue;
    if (first < 0) first = sortie;
    missing += 1;
  }
  const lackKg = first < 0 ? 0 : (lacking(run, first, scene.goal)?.missingKg ?? Infinity);
  return { sortie: first, missing, lackKg };
};

/** Fewer sorties not held, then a later first one, then less that it lacks. */
const compare = (a: Standing, b: Standing): number =>
  a.missing - b.missing || b.sortie - a.sortie || a.lackKg - b.lackKg;

/** Whether the hull of a trip is not back for it, or by it for the next, the turnaround kept. */
const isHullLate = (plan: PlanSnapshot, trips: readonly Trip[], own: Trip): boolean => {
  const classId = plan.craft.find(({ id }) => id === own.flight.craftId)?.classId;
  const turnaroundMs = (plan.craftClasses.find(({ id }) => id === classId)?.turnaroundDays ?? 0) * DAY_MS;
  return trips.some((other) => {
    if (other.flight.id === own.flight.id || other.flight.craftId !== own.flight.craftId) return false;
    const [earlier, later] = other.departAt <= own.departAt ? [other, own] : [own, other];
    return later.departAt < earlier.freeAt + turnaroundMs - SAME_MS;
  });
};

/** Whether the ports and hulls have room for the flights as moved, without the one left out. */
const hasRoom = (scene: MoveScene, moves: Moves, leftOutId: string | null): boolean => {
  const { plan } = scene;
  const flown = scene.trips.filter(({ flight }) => flight.id !== leftOutId);
  const trips = flown.map((trip): Trip => {
    const arriveAt = moves.get(trip.flight.id);
    if (arriveAt === undefined) return trip;
    const shift = arriveAt - trip.arriveAt;
    return { ...trip, departAt: trip.departAt + shift, arriveAt, freeAt: trip.freeAt + shift };
  });
  for (const [flightId] of moves) {
    const own = trips.find(({ flight }) => flight.id === flightId);
    if (own === undefined) return false;
    const ports = plan.depots.find(({ id }) => id === own.flight.depotId)?.ports ?? 0;
    const here = trips.filter(
      ({ flight, arriveAt, freeAt }) =>
        flight.depotId === own.flight.depotId && freeAt > own.arriveAt && arriveAt < own.freeAt,
    );
    for (const { arriveAt } of here) {
      const at = Math.max(arriveAt, own.arriveAt);
      if (here.filter((trip) => trip.arriveAt <= at && trip.freeAt > at).length > ports) return false;
    }
    if (isHullLate(plan, trips, own)) return false;
  }
  return true;
};

/** Lets the engine run with flights moved; its input is as it was afterwards. */
const withMoves = <T>({ engine, trips }: MoveScene, moves: Moves, run: (engine: Engine) => T): T => {
  const { flightSlipMs } = engine.input;
  for (const { flight, arriveAt } of trips) {
    const to = moves.get(flight.id);
    if (to !== undefined) flightSlipMs[engine.run.plan.flightIds.indexOf(flight.id)] = to - arriveAt;
  }
  const answer = run(engine);
  flightSlipMs.fill(0);
  return answer;
};

/** How the plan stands with flights moved; null: the sortie that must be cured is not, and no more was run. */
const standingWith = (scene: MoveScene, moves: Moves, mustCure: number): Standing | null =>
  withMoves(scene, moves, (engine) => {
    scene.runs.left -= 1;
    if (mustCure < 0) return standingOf(scene, engine.go());
    engine.begin();
    engine.runUntil(engine.run.plan.sortieLoadAt[mustCure] ?? 0);
    return isHeld(engine.run, mustCure, scene.goal) ? standingOf(scene, engine.finish()) : null;
  });

/** Every further move worth a try: to an instant before the first sortie that is not held, at its depot. */
const furtherMoves = (scene: MoveScene, standing: Standing, moves: Moves): readonly Moves[] => {
  const { plan, engine, movable, instants, trips } = scene;
  const sortieId = engine.run.plan.sortieIds[standing.sortie];
  const depotId = plan.sorties.find(({ id }) => id === sortieId)?.depotId;
  const loadAt = engine.run.plan.sortieLoadAt[standing.sortie] ?? 0;
  const before = (instants.get(depotId ?? "") ?? []).filter((at) => at <= loadAt).slice(-MAX_INSTANTS);
  return movable.flatMap((flight) => {
    if (flight.depotId !== depotId || moves.has(flight.id)) return [];
    const trip = trips.find((row) => row.flight.id === flight.id);
    if (trip === undefined) return [];
    const tripMs = trip.arriveAt - trip.departAt;
    return before
      .filter((at) => at - tripMs >= plan.asOfAt && Math.abs(at - trip.arriveAt) >= 1)
      .map((at) => new Map([...moves, [flight.id, at]]));
  });
};

/**
 * Fewest moves that were found to hold everything, up to `most`; of as many, the least time moved in all. null: none.
 * `leftOutId`: a flight that does not fly.
 */
export const moveFlights = (scene: MoveScene, most = MAX_MOVES, leftOutId: string | null = null): Moves | null => {
  const { flightIsOff } = scene.engine.input;
  const leftOut = leftOutId === null ? -1 : scene.engine.run.plan.flightIds.indexOf(leftOutId);
  if (leftOut >= 0) flightIsOff[leftOut] = 1;
  const found = movesFrom(scene, most, leftOutId);
  if (leftOut >= 0) flightIsOff[leftOut] = 0;
  return found;
};

const movesFrom = (scene: MoveScene, most: number, leftOutId: string | null): Moves | null => {
  const arriveAt = new Map(scene.trips.map((trip) => [trip.flight.id, trip.arriveAt]));
  const shiftOf = (moves: Moves): number =>
    [...moves].reduce((sum, [id, at]) => sum + Math.abs(at - (arriveAt.get(id) ?? at)), 0);
  const nothing: Moves = new Map();
  const unmoved = standingWith(scene, nothing, -1);
  let kept = unmoved === null ? [] : [{ moves: nothing, standing: unmoved }];
  for (let count = 1; count <= most; count += 1) {
    const next: { moves: Moves; standing: Standing }[] = [];
    const seen = new Set<string>();
    for (const { moves, standing } of kept)
      for (const further of furtherMoves(scene, standing, moves)) {
        if (scene.runs.left <= 0 || scene.shouldStop()) return null;
        const key = JSON.stringify([...further].toSorted(([a], [b]) => (a < b ? -1 : 1)));
        if (seen.has(key)) continue;
        seen.add(key);
        // With the last move everything must hold, the first sortie that did not before all others.
        const after = standingWith(scene, further, count === most ? standing.sortie : -1);
        if (after !== null && compare(after, standing) < 0 && hasRoom(scene, further, leftOutId))
          next.push({ moves: further, standing: after });
      }
    const [whole] = next
      .filter(({ standing }) => standing.sortie < 0)
      .toSorted((a, b) => shiftOf(a.moves) - shiftOf(b.moves));
    if (whole !== undefined) return whole.moves;
    kept = next
      .toSorted((a, b) => compare(a.standing, b.standing) || shiftOf(a.moves) - shiftOf(b.moves))
      .slice(0, BEAM);
    if (kept.length === 0) return null;
  }
  return null;
};
