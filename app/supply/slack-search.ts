/**
 * How far one flight alone may slip before a sortie's status gets worse, by search on the forecast, in whole minutes.
 *
 * Between the slips at which the flight's arrival passes an event that draws (or its own draw at a depot passes any
 * event), a later delivery changes every level one way, so statuses are asked at both ends of each such stretch; where
 * anything differs between the ends, the stretch is halved down to the minute at which it changes.
 */
import { type CompiledPlan, EVENT } from "../forecast/compiled-plan.ts";
import { probeFlight } from "../forecast/probe.ts";
import type { Engine } from "../forecast/propagate.ts";
import { DAY_MS } from "../ledger/quantity.ts";

const MINUTE_MS = 60_000;

/** Slip in minutes at which each sortie first gets worse than without; Infinity: never, up to the horizon. */
export type FirstWorse = Float64Array;

/** Instants that a slipping flight may pass with consequences. */
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
  return { draws: [...draws], all: [...all] };
};

/** How long the metered handovers of a flight may run, ms: 0 for at-once ones. */
const handoverSpans = (compiled: CompiledPlan, flight: number): readonly number[] => {
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

/** What is compared between two slips: the status of every sortie, and when it loads. */
interface Snapshot {
  readonly status: Uint8Array;
  readonly loadedAt: Float64Array;
}

/**
 * Whether nothing of consequence lies between two slips: every sortie loads when it did (so it draws what it did), and
 * none that was not worse before has become so. Supplied or thin makes no difference to anyone else.
 */
const isSettled = (before: Snapshot, after: Snapshot, base: Uint8Array): boolean => {
  for (let i = 0; i < base.length; i += 1) {
    if (!Object.is(before.loadedAt[i], after.loadedAt[i])) return false;
    const limit = base[i] ?? 0;
    if ((before.status[i] ?? 0) <= limit && (after.status[i] ?? 0) > limit) return false;
  }
  return true;
};

/**
 * For every sortie the first slip of `flight` (minutes, up to its arrival at the horizon) at which its status is worse
 * than without a slip. `base`: the statuses without. The engine's input is put back.
 */
export const firstWorse = (engine: Engine, flight: number, turns: Turns, base: Uint8Array): FirstWorse => {
  const { plan } = engine.run;
  const found = new Float64Array(base.length).fill(Infinity);
  const most = Math.floor((plan.horizonAt - (plan.flightArriveAt[flight] ?? 0)) / MINUTE_MS);
  if (most < 1) return found;
  const probe = probeFlight(engine, flight);
  const look = (minutes: number): Snapshot => {
    const run = probe.at(minutes * MINUTE_MS);
    for (let sortie = 0; sortie < base.length; sortie += 1)
      if ((run.sortieStatus[sortie] ?? 0) > (base[sortie] ?? 0) && minutes < (found[sortie] ?? 0))
        found[sortie] = minutes;
    return { status: run.sortieStatus.slice(), loadedAt: run.sortieLoadedAt.slice() };
  };
  const search = (from: number, before: Snapshot, to: number, after: Snapshot): void => {
    if (to - from <= 1 || isSettled(before, after, base)) return;
    const middle = Math.floor((from + to) / 2);
    const between = look(middle);
    search(from, before, middle, between);
    search(middle, between, to, after);
  };
  const marks = milestones(plan, flight, turns, most);
  let from = 0;
  let before = look(0);
  for (const to of marks) {
    if (to === 0) continue;
    probe.startFrom(from * MINUTE_MS);
    const after = look(to);
    search(from, before, to, after);
    from = to;
    before = after;
  }
  return found;
};
