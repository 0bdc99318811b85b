/**
 * How far one flight alone, or several together, may slip before a sortie fares worse, by search on the forecast, in whole minutes.
 *
 * Between the slips at which the flight's arrival passes an event that draws (or its own draw at a depot passes any
 * event), a later delivery changes every level one way, so fates are asked at both ends of each such stretch; where
 * anything differs between the ends, the stretch is halved down to the minute at which it changes.
 */
import { type CompiledPlan, EVENT } from "../forecast/compiled-plan.ts";
import { probeFlight } from "../forecast/probe.ts";
import type { Engine } from "../forecast/propagate.ts";
import type { Run } from "../forecast/run-state.ts";
import { windowAfter } from "../entity/windows.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { FATE, fatesOf } from "./fate.ts";

const MINUTE_MS = 60_000;

/** Slip in minutes at which each sortie first fares worse than without; Infinity: never, up to the horizon. */
export type FirstWorse = Float64Array;

/** Instants that a slipping flight may pass with consequences, rising. */
export interface Turns {
  /** Loadings and draws: what counts for a delivery. */
  readonly draws: readonly number[];
  /** These and other arrivals: what counts for a draw at a depot of origin. */
  readonly all: readonly number[];
}

export const turningInstants = (compiled: CompiledPlan): Turns => {
  const draws = new Set<number>();
  const all = new Set<number>();
  compiled.eventAt.forEach((at, event) => {
    const kind = compiled.eventKind[event];
    if (kind === EVENT.rate) return;
    all.add(at);
    if (kind === EVENT.load || kind === EVENT.departure) draws.add(at);
  });
  const rising = (instants: ReadonlySet<number>): number[] => [...instants].sort((a, b) => a - b);
  return { draws: rising(draws), all: rising(all) };
};

/**
 * Windows at which a sortie that has to wait tries to load, rising. No event is known to lie there, yet where several flights
 * slip together one may bring before a window what another takes after it: for as long as the window lies between them.
 */
const triesAtWindows = (plan: CompiledPlan): readonly number[] => {
  const tries = new Set<number>();
  plan.sortieWindows.forEach((windows, sortie) => {
    if (windows === null) return;
    const loadAt = plan.sortieLoadAt[sortie] ?? 0;
    const limitAt = Math.min(loadAt + (plan.sortieHoldMs[sortie] ?? 0), plan.horizonAt);
    for (let at = windowAfter(windows, loadAt); at <= limitAt; at = windowAfter(windows, at)) tries.add(at);
  });
  return [...tries].sort((a, b) => a - b);
};

/** How long the metered handovers of a flight may run, ms: 0 for at-once ones. */
export const handoverSpans = (compiled: CompiledPlan, flight: number): readonly number[] => {
  const spans = new Set([0]);
  for (
    let line = compiled.flightLineStart[flight] ?? 0;
    line < (compiled.flightLineStart[flight + 1] ?? 0);
    line += 1
  ) {
    const rate = compiled.lineRateKgPerDay[line] ?? 0;
    if (rate <= 0) continue;
    const berth = compiled.flightBerthMs[flight] ?? 0;
    spans.add(Math.min(berth, ((compiled.lineLoadedKg[line] ?? 0) / rate) * DAY_MS)).add(berth);
  }
  return [...spans];
};

/**
 * The slips, in minutes, between which statuses are compared. At one instant a delivery comes before a loading and a
 * tanker's draw after it, so each instant gives the last minute before it, the one at it and the first after.
 */
const milestones = (compiled: CompiledPlan, flight: number, turns: Turns, most: number): readonly number[] => {
  const marks = new Set([0, most]);
  const departs = compiled.flightDepartAt[flight] ?? 0;
  const arrives = compiled.flightArriveAt[flight] ?? 0;
  const draws = (compiled.lineOriginPool[compiled.flightLineStart[flight] ?? 0] ?? -1) >= 0;
  const add = (ms: number, before: 0 | 1): void => {
    const minute = Math.floor(ms / MINUTE_MS);
    for (let mark = minute - before; mark <= minute + 1; mark += 1) if (mark >= 0 && mark <= most) marks.add(mark);
  };
  for (const span of handoverSpans(compiled, flight)) for (const at of turns.draws) add(at - arrives - span, 0);
  if (draws) for (const at of turns.all) add(at - departs, 1);
  return [...marks].sort((a, b) => a - b);
};

/** What is compared between two slips: what becomes of every sortie, and when it loads. */
export interface Snapshot {
  readonly minutes: number;
  readonly fate: Uint8Array;
  readonly loadedAt: Float64Array;
}

/** Whether any of rising instants lies in a span, its ends included. */
const liesWithin = (instants: readonly number[], fromAt: number, untilAt: number): boolean => {
  let low = 0;
  let high = instants.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((instants[middle] ?? Infinity) < fromAt) low = middle + 1;
    else high = middle;
  }
  return (instants[low] ?? Infinity) <= untilAt;
};

/** A sortie that waits for what slips loads as much later, and neither its loading nor its return passes another draw. */
export const ridesAlong = ({ plan, draws }: Scene, sortie: number, before: Snapshot, after: Snapshot): boolean => {
  const then = before.loadedAt[sortie] ?? 0;
  const now = after.loadedAt[sortie] ?? 0;
  // What is worked out along the way may be off by a rounding of the last place of an instant.
  const isAsMuch = Math.abs(now - then - (after.minutes - before.minutes) * MINUTE_MS) < 0.01;
  const isAlike = after.fate[sortie] === FATE.waitsAndFlies && before.fate[sortie] === after.fate[sortie];
  const tripMs = (plan.sortieReturnAt[sortie] ?? 0) - (plan.sortieLoadAt[sortie] ?? 0);
  return isAsMuch && isAlike && !liesWithin(draws, then, now) && !liesWithin(draws, then + tripMs, now + tripMs);
};

/** What a search goes by beside its answers: the plan, and every known instant at which something is drawn, rising. */
export interface Scene {
  readonly plan: CompiledPlan;
  readonly draws: readonly number[];
  /** Instants of the flights that may pass an event, unmoved: arrivals, ends of handovers, draws at a depot. */
  readonly ownInstants: readonly number[];
}

/** Instants of flights at which they take or give: arrivals, the ends of handovers, and departures that draw at a depot. */
export const ownInstants = (plan: CompiledPlan, flights: readonly number[]): readonly number[] =>
  flights.flatMap((flight) => {
    const arriveAt = plan.flightArriveAt[flight] ?? 0;
    const draws = (plan.lineOriginPool[plan.flightLineStart[flight] ?? 0] ?? -1) >= 0;
    const given = handoverSpans(plan, flight).map((span) => arriveAt + span);
    return draws ? [plan.flightDepartAt[flight] ?? 0, ...given] : given;
  });

/**
 * Whether one of the flights passes, between two slips, the loading of a sortie that had to wait. Such a loading is no
 * event that is known beforehand, and what comes just before it may take what it waits for.
 */
export const passesLoading = (scene: Scene, before: Snapshot, after: Snapshot): boolean => {
  const { plan, ownInstants: own } = scene;
  for (let sortie = 0; sortie < before.loadedAt.length; sortie += 1) {
    const plannedAt = plan.sortieLoadAt[sortie] ?? 0;
    for (const { loadedAt } of [before, after]) {
      const at = loadedAt[sortie] ?? 0;
      if (!(at > plannedAt)) continue;
      const isPassed = own.some(
        (instant) => at >= instant + before.minutes * MINUTE_MS && at <= instant + after.minutes * MINUTE_MS,
      );
      if (isPassed && !ridesAlong(scene, sortie, before, after)) return true;
    }
  }
  return false;
};

/**
 * Whether nothing of consequence lies between two slips: every sortie loads when it did (so it draws what it did), or
 * rides along; and none that was not worse before has become so. Whether the reserve is kept or used makes no difference
 * to anyone else.
 */
const isSettled = (scene: Scene, before: Snapshot, after: Snapshot, base: Uint8Array): boolean => {
  if (passesLoading(scene, before, after)) return false;
  for (let i = 0; i < base.length; i += 1) {
    if (!Object.is(before.loadedAt[i], after.loadedAt[i]) && !ridesAlong(scene, i, before, after)) return false;
    const limit = base[i] ?? 0;
    if ((before.fate[i] ?? 0) <= limit && (after.fate[i] ?? 0) > limit) return false;
  }
  return true;
};

/** Where a search is asked: the plan at a slip in minutes; `startFrom` declares that no smaller slip will follow. */
interface Slipping {
  readonly marks: readonly number[];
  at(minutes: number): Run;
  startFrom(minutes: number): void;
}

const searchMarks = (
  scene: Scene,
  slipping: Slipping,
  base: Uint8Array,
  isEnough: (found: FirstWorse) => boolean,
): FirstWorse => {
  const found = new Float64Array(base.length).fill(Infinity);
  const look = (minutes: number): Snapshot => {
    const run = slipping.at(minutes);
    const fate = fatesOf(run);
    for (let sortie = 0; sortie < base.length; sortie += 1)
      if ((fate[sortie] ?? 0) > (base[sortie] ?? 0) && minutes < (found[sortie] ?? 0)) found[sortie] = minutes;
    return { minutes, fate, loadedAt: run.sortieLoadedAt.slice() };
  };
  const search = (before: Snapshot, after: Snapshot): void => {
    if (after.minutes - before.minutes <= 1 || isSettled(scene, before, after, base)) return;
    const between = look(Math.floor((before.minutes + after.minutes) / 2));
    search(before, between);
    search(between, after);
  };
  let before = look(0);
  for (const to of slipping.marks) {
    if (to === 0) continue;
    slipping.startFrom(before.minutes);
    const after = look(to);
    search(before, after);
    if (isEnough(found)) break;
    before = after;
  }
  return found;
};

/**
 * For every sortie the first slip of `flight` (minutes, up to its arrival at the horizon) at which it fares worse than
 * without a slip. `base`: the fates without. The engine's input is put back.
 */
export const firstWorse = (engine: Engine, flight: number, turns: Turns, base: Uint8Array): FirstWorse => {
  const { plan } = engine.run;
  const most = Math.floor((plan.horizonAt - (plan.flightArriveAt[flight] ?? 0)) / MINUTE_MS);
  if (most < 1) return new Float64Array(base.length).fill(Infinity);
  const probe = probeFlight(engine, flight);
  return searchMarks(
    { plan, draws: turns.draws, ownInstants: ownInstants(plan, [flight]) },
    {
      marks: milestones(plan, flight, turns, most),
      at: (minutes) => probe.at(minutes * MINUTE_MS),
      startFrom: (minutes) => probe.startFrom(minutes * MINUTE_MS),
    },
    base,
    () => false,
  );
};

/**
 * The first slip, in minutes, of several flights together at which any sortie fares worse; Infinity: none until the first
 * of them would arrive at the horizon; the others then arrive beyond it. The engine's input is put back.
 */
export const firstWorseTogether = (
  engine: Engine,
  flights: readonly number[],
  turns: Turns,
  base: Uint8Array,
): number => {
  const { plan } = engine.run;
  const first = Math.min(...flights.map((flight) => plan.flightArriveAt[flight] ?? 0));
  const most = Math.floor((plan.horizonAt - first) / MINUTE_MS);
  if (most < 1) return Infinity;
  const tries = triesAtWindows(plan);
  const passed: Turns = { draws: [...turns.draws, ...tries], all: [...turns.all, ...tries] };
  const marks = new Set(flights.flatMap((flight) => milestones(plan, flight, passed, most)));
  const found = searchMarks(
    { plan, draws: turns.draws, ownInstants: ownInstants(plan, flights) },
    {
      marks: [...marks].sort((a, b) => a - b),
      at: (minutes) => {
        for (const flight of flights) engine.input.flightSlipMs[flight] = minutes * MINUTE_MS;
        const run = engine.go();
        for (const flight of flights) engine.input.flightSlipMs[flight] = 0;
        return run;
      },
      startFrom: () => undefined,
    },
    base,
    (worse) => worse.some((minute) => minute !== Infinity),
  );
  return Math.min(Infinity, ...found);
};
