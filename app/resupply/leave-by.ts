/** For each planned flight, and for each class together: when it must leave at the latest, and may at the earliest. */
import { byId } from "../forecast/draft.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { type Engine, createEngine } from "../forecast/propagate.ts";
import { fatesOf } from "../supply/fate.ts";
import { type Turns, firstWorse, firstWorseTogether, turningInstants } from "../supply/slack-search.ts";
import { type Working, stopped } from "../work/working.ts";
import { fateWord, firstTooEarly } from "./earliest-advance.ts";
import type { ClassLeaveBy, EarliestBy, FaresWorse, LeaveBy, LeaveByAnswer } from "./leave-by-answer.ts";
import { type Trip, firstCrowded, firstHullAway, tripsOf } from "./room-to-move.ts";

const MINUTE_MS = 60_000;

/** What the searches share. */
interface Scene {
  readonly plan: PlanSnapshot;
  readonly engine: Engine;
  readonly turns: Turns;
  readonly base: Uint8Array;
  readonly trips: readonly Trip[];
}

/** The sortie that fares worst with these flights so many minutes later. */
const worseAt = ({ engine, base }: Scene, flights: readonly number[], minutes: number): FaresWorse | null => {
  for (const flight of flights) engine.input.flightSlipMs[flight] = minutes * MINUTE_MS;
  const fates = fatesOf(engine.go());
  for (const flight of flights) engine.input.flightSlipMs[flight] = 0;
  let worst = -1;
  fates.forEach((fate, sortie) => {
    if (fate > (base[sortie] ?? 0) && fate > (worst < 0 ? 0 : (fates[worst] ?? 0))) worst = sortie;
  });
  return worst < 0 ? null : { sortieId: engine.run.plan.sortieIds[worst] ?? "", becomes: fateWord(fates[worst] ?? 0) };
};

/** How much earlier flights may leave, and what keeps them from more. */
const advanceOf = (scene: Scene, flights: readonly number[]): { minutes: number; by: EarliestBy } => {
  const { plan, engine, turns, trips } = scene;
  const compiled = engine.run.plan;
  const ids = new Set(flights.map((flight) => compiled.flightIds[flight] ?? ""));
  const firstAt = Math.min(...flights.map((flight) => compiled.flightDepartAt[flight] ?? 0));
  const limits: { minutes: number; by: EarliestBy }[] = [
    { minutes: Math.max(0, Math.floor((firstAt - plan.asOfAt) / MINUTE_MS)), by: { kind: "as-of" } },
  ];
  const hull = firstHullAway(plan, trips, ids, -1);
  if (hull !== null) limits.push({ minutes: hull.minutes - 1, by: { kind: "hull", flightId: hull.flightId } });
  const most = (): number => Math.min(...limits.map(({ minutes }) => minutes));
  const port = firstCrowded(plan, trips, ids, -1, most());
  if (port !== null) limits.push({ minutes: port.minutes - 1, by: { kind: "port", flightId: port.flightId } });
  const early = firstTooEarly(engine, flights, turns, most());
  if (early !== null) return { minutes: early.minutes - 1, by: early.by };
  const least = most();
  return limits.find(({ minutes }) => minutes === least) ?? { minutes: 0, by: { kind: "as-of" } };
};

const leaveByOf = (scene: Scene, flight: number, trip: Trip, classId: string): LeaveBy => {
  const { plan, engine, turns, base, trips } = scene;
  const { flight: row, departAt } = trip;
  const worse = Math.min(Infinity, ...firstWorse(engine, flight, turns, base));
  const toHorizon = Math.floor((plan.horizonAt - trip.arriveAt) / MINUTE_MS);
  const latest = worse === Infinity ? toHorizon : worse - 1;
  const ids = new Set([row.id]);
  const port = firstCrowded(plan, trips, ids, 1, latest);
  const hull = firstHullAway(plan, trips, ids, 1);
  const advance = advanceOf(scene, [flight]);
  return {
    flightId: row.id,
    classId,
    depotId: row.depotId,
    departAt,
    latestAt: worse === Infinity ? null : departAt + latest * MINUTE_MS,
    latestBy: worse === Infinity ? null : worseAt(scene, [flight], worse),
    earliestAt: departAt - advance.minutes * MINUTE_MS,
    earliestBy: advance.by,
    portTakenFromAt: port === null ? null : departAt + port.minutes * MINUTE_MS,
    hullNeededFromAt: hull === null || hull.minutes > latest ? null : departAt + hull.minutes * MINUTE_MS,
  };
};

const classLeaveByOf = (scene: Scene, classId: string, rows: readonly LeaveBy[]): ClassLeaveBy => {
  const { engine, turns, base } = scene;
  const flights = rows.map(({ flightId }) => engine.run.plan.flightIds.indexOf(flightId));
  const worse = firstWorseTogether(engine, flights, turns, base);
  const advance = advanceOf(scene, flights);
  return {
    classId,
    flightIds: rows.map(({ flightId }) => flightId),
    firstDepartAt: Math.min(...rows.map(({ departAt }) => departAt)),
    latestSlipMs: worse === Infinity ? null : (worse - 1) * MINUTE_MS,
    latestBy: worse === Infinity ? null : worseAt(scene, flights, worse),
    earliestAdvanceMs: advance.minutes * MINUTE_MS,
    earliestBy: advance.by,
  };
};

/**
 * Latest and earliest useful departure of every planned or firm flight that is still to leave and arrives before the plan
 * ends. Exact to a minute on the forecast. Throws "cancelled" when nobody waits any more.
 */
export const leaveBy = (plan: PlanSnapshot, working: Working): LeaveByAnswer => {
  const seen = forecast(plan);
  const engine = createEngine(seen.compiled);
  const base = fatesOf(engine.go());
  const trips = tripsOf(plan, seen);
  const scene: Scene = { plan, engine, turns: turningInstants(seen.compiled), base, trips };
  const classOf = new Map([...byId(plan.craft)].map(([id, { classId }]) => [id, classId]));
  const concerned = trips.flatMap((trip) => {
    const flight = seen.compiled.flightIds.indexOf(trip.flight.id);
    const isAhead = trip.flight.status === "planned" || trip.flight.status === "firm";
    return isAhead && flight >= 0 && trip.arriveAt <= plan.horizonAt ? [{ trip, flight }] : [];
  });
  const classIds = [...new Set(concerned.map(({ trip }) => classOf.get(trip.flight.craftId) ?? ""))];
  const steps = concerned.length + classIds.length;
  const tell = (done: number): void => {
    if (working.shouldStop()) throw stopped();
    working.tell({ share: done / steps, words: "Looking for the latest and earliest departures" });
  };
  const flights = concerned.map(({ trip, flight }, n) => {
    tell(n);
    return leaveByOf(scene, flight, trip, classOf.get(trip.flight.craftId) ?? "");
  });
  const classes = classIds.map((classId, n) => {
    tell(concerned.length + n);
    const rows = flights.filter((row) => row.classId === classId);
    return classLeaveByOf(scene, classId, rows);
  });
  return {
    asOfAt: plan.asOfAt,
    horizonAt: plan.horizonAt,
    flights: flights.toSorted(
      (a, b) =>
        (a.latestAt ?? Infinity) - (b.latestAt ?? Infinity) ||
        a.departAt - b.departAt ||
        (a.flightId < b.flightId ? -1 : 1),
    ),
    classes,
  };
};
