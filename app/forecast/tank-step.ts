/** One tank from instant to instant, and what is noted on the way. `row` is the tank's offset in the rows of tanks. */
import { DAY_MS } from "../ground/quantity.ts";
import {
  AT,
  C,
  DOWN_C,
  DOWN_K,
  FACTOR,
  FLOW,
  K,
  LOST,
  MASS,
  MAXIMUM,
  PLAN_C,
  PLAN_K,
  TANK_WIDTH,
  WATCH,
  WATCHED,
} from "./layout.ts";
import { phi1 } from "../storage/level.ts";
import type { Run } from "./run-state.ts";

const DAYS_A_MS = 1 / DAY_MS;

/**
 * Notes the levels of a stretch at the watched instants before its end; the first that is not noted. What the stretch has
 * in common is read once; the levels are those of {@link levelAhead}, to the bit.
 */
const noteLevels = (run: Run, tanks: Float64Array, row: number, until: number): number => {
  const watchAt = run.watchAt as Float64Array;
  const { watchedKg } = run;
  // Whole numbers for the processor: places read as doubles would be turned round at each instant.
  const from = ((row / TANK_WIDTH) | 0) * watchAt.length;
  const m0 = tanks[row + MASS] as number;
  const since = tanks[row + AT] as number;
  const k = tanks[row + K] as number;
  const flow = tanks[row + FLOW] as number;
  const fall = k * m0 + (tanks[row + C] as number) - flow;
  const isStill = fall === 0 && flow === 0;
  let place = (tanks[row + WATCHED] as number) | 0;
  for (; place < watchAt.length; place += 1) {
    const at = watchAt[place] as number;
    if (at >= until) break;
    if (isStill || at <= since) watchedKg[from + place] = m0;
    else {
      const days = (at - since) * DAYS_A_MS;
      const level = m0 - fall * days * phi1(k * days);
      watchedKg[from + place] = level > 0 ? level : 0;
    }
  }
  return place;
};

/**
 * The same where something flows in, or where the step is to be noted: as a segment of the trace, and at the watched
 * instants before its end. All in one function on purpose: the compiler takes short ones into their callers, and this
 * one must not make `advance` too long for that.
 */
const advanceNoted = (run: Run, tanks: Float64Array, row: number, at: number): number => {
  const { trace, watchAt } = run;
  const m0 = tanks[row + MASS] as number;
  const since = tanks[row + AT] as number;
  const k = tanks[row + K] as number;
  const c = tanks[row + C] as number;
  const flow = tanks[row + FLOW] as number;
  if (trace !== null) {
    trace.tank.push(row / TANK_WIDTH);
    trace.startAt.push(since);
    trace.endAt.push(at);
    trace.m0.push(m0);
    trace.k.push(k);
    trace.c.push(c);
    trace.f.push(flow);
  }
  if (watchAt !== null) {
    const place = noteLevels(run, tanks, row, at);
    tanks[row + WATCHED] = place;
    const isNoted = trace !== null || flow !== 0;
    tanks[row + WATCH] = isNoted ? -Infinity : place < watchAt.length ? (watchAt[place] as number) : Infinity;
  }
  tanks[row + AT] = at;
  const fall = k * m0 + c - flow;
  if (fall === 0 && flow === 0) return m0;
  const days = (at - since) * DAYS_A_MS;
  const level = m0 - fall * days * phi1(k * days);
  const m1 = level > 0 ? level : 0;
  tanks[row + LOST] = (tanks[row + LOST] as number) + (m0 + flow * days - m1);
  tanks[row + MASS] = m1;
  return m1;
};

/**
 * Carries a tank's level to an instant; gives the level there. It stands inside all that happens, so it is kept as short
 * as can be: what is seldom hides behind WATCH.
 */
export const advance = (run: Run, tanks: Float64Array, row: number, at: number): number => {
  const m0 = tanks[row + MASS] as number;
  const since = tanks[row + AT] as number;
  if (at <= since) return m0;
  if (at > (tanks[row + WATCH] as number)) return advanceNoted(run, tanks, row, at);
  tanks[row + AT] = at;
  const k = tanks[row + K] as number;
  const fall = k * m0 + (tanks[row + C] as number);
  if (fall === 0) return m0;
  const days = (at - since) * DAYS_A_MS;
  const level = m0 - fall * days * phi1(k * days);
  const m1 = level > 0 ? level : 0;
  tanks[row + LOST] = (tanks[row + LOST] as number) + (m0 - m1);
  tanks[row + MASS] = m1;
  return m1;
};

/** Level at an instant from the one to which the tank was carried; the tank stays there. */
export const levelAhead = (tanks: Float64Array, row: number, at: number): number => {
  const m0 = tanks[row + MASS] as number;
  const since = tanks[row + AT] as number;
  const k = tanks[row + K] as number;
  const flow = tanks[row + FLOW] as number;
  const fall = k * m0 + (tanks[row + C] as number) - flow;
  if (at <= since || (fall === 0 && flow === 0)) return m0;
  const days = (at - since) * DAYS_A_MS;
  const level = m0 - fall * days * phi1(k * days);
  return level > 0 ? level : 0;
};

/** Sets WATCH: the next watched instant, or none; −Infinity where every step takes the noted way. */
const watch = (run: Run, row: number): void => {
  const { tanks, trace, watchAt } = run;
  const isNoted = trace !== null || tanks[row + FLOW] !== 0;
  const place = tanks[row + WATCHED] as number;
  const nextAt = watchAt !== null && place < watchAt.length ? (watchAt[place] as number) : Infinity;
  tanks[row + WATCH] = isNoted ? -Infinity : nextAt;
};

/** Sets what flows into a tank, kg/day. */
export const setInflow = (run: Run, row: number, kgPerDay: number): void => {
  run.tanks[row + FLOW] = kgPerDay;
  watch(run, row);
};

/** Before a run: what is noted of which tank. Lander tanks are not watched, and nothing is outside the run. */
export const startNotes = (run: Run): void => {
  const { tanks, watchAt, watchedKg, plan } = run;
  watchedKg.fill(Number.NaN);
  const instants = watchAt === null ? 0 : watchAt.length;
  let first = 0;
  if (watchAt !== null) while (first < instants && (watchAt[first] as number) < plan.asOfAt) first += 1;
  for (let tank = 0; tank < plan.tankPool.length; tank += 1) {
    tanks[TANK_WIDTH * tank + WATCHED] = (plan.tankPool[tank] as number) >= 0 ? first : instants;
    watch(run, TANK_WIDTH * tank);
  }
};

/** After a run, all tanks at the horizon: the watched instants that stand there. */
export const endNotes = (run: Run): void => {
  const { tanks, watchAt, watchedKg, plan } = run;
  if (watchAt === null) return;
  for (let tank = 0; tank < plan.tankPool.length; tank += 1) {
    const row = TANK_WIDTH * tank;
    let place = tanks[row + WATCHED] as number;
    for (; place < watchAt.length && (watchAt[place] as number) <= plan.horizonAt; place += 1)
      watchedKg[tank * watchAt.length + place] = tanks[row + MASS] as number;
    tanks[row + WATCHED] = place;
  }
};

/** Puts the rate in force: the plan's, or the one while the cooler is down where a full tank loses more by it. */
export const applyRate = (tanks: Float64Array, row: number): void => {
  const factor = tanks[row + FACTOR] as number;
  const maximum = tanks[row + MAXIMUM] as number;
  let k = tanks[row + PLAN_K] as number;
  let c = tanks[row + PLAN_C] as number;
  const downK = tanks[row + DOWN_K] as number;
  const downC = tanks[row + DOWN_C] as number;
  if (downK * maximum + downC > k * maximum + c) {
    k = downK;
    c = downC;
  }
  tanks[row + K] = k * factor;
  tanks[row + C] = c * factor;
};
