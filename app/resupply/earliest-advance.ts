/**
 * How much earlier flights may leave, one alone or several together, until something is worse than now, by search on the
 * forecast, in whole minutes: a sortie, what a tank takes of any flight, or what a depot of origin gives.
 *
 * Between the moves at which an arrival (or a draw at a depot) passes an event, an earlier one changes every level one
 * way, so it is asked at both ends of each such stretch, and halved where they differ.
 */
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import { probeFlight } from "../forecast/probe.ts";
import { type Engine, finish } from "../forecast/propagate.ts";
import { leftCount } from "../forecast/read-run.ts";
import type { Run } from "../forecast/run-state.ts";
import { FATE, fatesOf } from "../supply/fate.ts";
import {
  type Scene,
  type Turns,
  handoverSpans,
  ownInstants,
  passesLoading,
  ridesAlong,
} from "../supply/slack-search.ts";
import type { EarliestBy, FaresWorse } from "./leave-by-answer.ts";

const MINUTE_MS = 60_000;
/** Less than this more left aboard, or less loaded at a depot, is rounding. kg */
const LEAST_KG = 1e-3;

/** What one run is compared by. */
interface Standing {
  readonly minutes: number;
  readonly fate: Uint8Array;
  readonly loadedAt: Float64Array;
  /** Left aboard or vented, by flight, kg. */
  readonly leftKg: Float64Array;
  /** What each line set out with, kg. */
  readonly loadedKg: Float64Array;
}

export const fateWord = (fate: number): FaresWorse["becomes"] =>
  fate === FATE.doesNotFly ? "does not fly" : fate === FATE.waitsAndFlies ? "waits" : "uses the reserve";

const standingOf = (run: Run, minutes: number): Standing => {
  const leftKg = new Float64Array(run.plan.flightIds.length);
  for (let n = 0; n < leftCount(run); n += 1) {
    const flight = run.plan.lineFlight[run.leftLine[n] ?? 0] ?? 0;
    leftKg[flight] = (leftKg[flight] ?? 0) + (run.leftKg[n] ?? 0);
  }
  return {
    minutes,
    fate: fatesOf(run),
    loadedAt: run.sortieLoadedAt.slice(),
    leftKg,
    loadedKg: run.lineLoadedKg.slice(),
  };
};

/** What is worse than now, the first thing found; null: nothing. */
const worseThan = (plan: CompiledPlan, now: Standing, then: Standing): EarliestBy | null => {
  const sortie = then.fate.findIndex((fate, index) => fate > (now.fate[index] ?? 0));
  if (sortie >= 0)
    return { kind: "sortie", sortieId: plan.sortieIds[sortie] ?? "", becomes: fateWord(then.fate[sortie] ?? 0) };
  const line = then.loadedKg.findIndex((massKg, index) => massKg < (now.loadedKg[index] ?? 0) - LEAST_KG);
  if (line >= 0) return { kind: "origin", flightId: plan.flightIds[plan.lineFlight[line] ?? 0] ?? "" };
  const flight = then.leftKg.findIndex((massKg, index) => massKg > (now.leftKg[index] ?? 0) + LEAST_KG);
  return flight < 0 ? null : { kind: "tank room", flightId: plan.flightIds[flight] ?? "" };
};

const drawsAtDepot = (plan: CompiledPlan, flight: number): boolean =>
  (plan.lineOriginPool[plan.flightLineStart[flight] ?? 0] ?? -1) >= 0;

/** Moves, in minutes, between which levels go one way: where an arrival, the end of a handover or a draw passes an event. */
const milestones = (plan: CompiledPlan, flights: readonly number[], turns: Turns, most: number): readonly number[] => {
  const marks = new Set([most]);
  const add = (ms: number): void => {
    const minute = Math.floor(ms / MINUTE_MS);
    for (let mark = minute - 1; mark <= minute + 1; mark += 1) if (mark > 0 && mark < most) marks.add(mark);
  };
  for (const flight of flights) {
    const arrives = plan.flightArriveAt[flight] ?? 0;
    const departs = plan.flightDepartAt[flight] ?? 0;
    const draws = drawsAtDepot(plan, flight);
    for (const at of turns.all) {
      for (const span of handoverSpans(plan, flight)) add(arrives + span - at);
      if (draws) add(departs - at);
    }
  }
  return [...marks].toSorted((a, b) => a - b);
};

/** The plan with flights earlier by so many minutes. */
const moving = (engine: Engine, flights: readonly number[]): ((minutes: number) => Run) => {
  const [only, ...others] = flights;
  const { plan } = engine.run;
  // One that draws at a depot changes more than what comes after its arrival: there the whole plan is run.
  if (only !== undefined && others.length === 0 && !drawsAtDepot(plan, only)) {
    const probe = probeFlight(engine, only);
    return (minutes) => {
      const run = probe.at(-minutes * MINUTE_MS);
      // What the end of the plan cuts off is left aboard, too.
      finish(run);
      return run;
    };
  }
  return (minutes) => {
    for (const flight of flights) engine.input.flightSlipMs[flight] = -minutes * MINUTE_MS;
    const run = engine.go();
    for (const flight of flights) engine.input.flightSlipMs[flight] = 0;
    return run;
  };
};

/**
 * The first move of `flights` together, in minutes up to `most`, with which something is worse than with none, and what;
 * null: nothing is. No flight may depart before the as-of instant by it. The engine's input is put back.
 */
export const firstTooEarly = (
  engine: Engine,
  flights: readonly number[],
  turns: Turns,
  most: number,
): { readonly minutes: number; readonly by: EarliestBy } | null => {
  if (most < 1) return null;
  const { plan } = engine.run;
  const scene: Scene = { plan, draws: turns.draws, ownInstants: ownInstants(plan, flights) };
  const earlier = moving(engine, flights);
  const look = (minutes: number): Standing => standingOf(earlier(minutes), minutes);
  const now = look(0);
  /** Nothing of consequence lies between: sorties load when they did, or ride along. */
  const isSettled = (nearer: Standing, further: Standing): boolean => {
    const before = { ...further, minutes: -further.minutes };
    const after = { ...nearer, minutes: -nearer.minutes };
    if (passesLoading(scene, before, after)) return false;
    for (let sortie = 0; sortie < before.loadedAt.length; sortie += 1)
      if (!Object.is(before.loadedAt[sortie], after.loadedAt[sortie]) && !ridesAlong(scene, sortie, before, after))
        return false;
    return true;
  };
  /** `before` is as good as now. */
  const firstIn = (before: Standing, after: Standing): { minutes: number; by: EarliestBy } | null => {
    const by = worseThan(plan, now, after);
    if (after.minutes - before.minutes <= 1) return by === null ? null : { minutes: after.minutes, by };
    if (by === null && isSettled(before, after)) return null;
    const between = look(Math.floor((before.minutes + after.minutes) / 2));
    const found = firstIn(before, between);
    return found ?? firstIn(between, after);
  };
  let before = now;
  for (const mark of milestones(plan, flights, turns, most)) {
    const after = look(mark);
    const found = firstIn(before, after);
    if (found !== null) return found;
    before = after;
  }
  return null;
};
