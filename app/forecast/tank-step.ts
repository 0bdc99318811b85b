/** One tank from instant to instant, and what is noted on the way. `row` is the tank's offset in the rows of tanks. */
import { DAY_MS } from "../ledger/quantity.ts";
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
import { phi1 } from "./level.ts";
import type { Run } from "./run-state.ts";
import { traceStretch } from "./trace.ts";

const DAYS_A_MS = 1 / DAY_MS;

/** Carries a tank's level to an instant; gives the level there. */
export const advance = (run: Run, tanks: Float64Array, row: number, at: number): number => {
  const m0 = tanks[row + MASS] as number;
  const since = tanks[row + AT] as number;
  if (at <= since) return m0;
  if (at > (tanks[row + WATCH] as number)) note(run, row, at);
  tanks[row + AT] = at;
  const k = tanks[row + K] as number;
  const flow = tanks[row + FLOW] as number;
  const fall = k * m0 + (tanks[row + C] as number) - flow;
  if (fall === 0 && flow === 0) return m0;
  const days = (at - since) * DAYS_A_MS;
  const level = m0 - fall * days * phi1(k * days);
  const m1 = level > 0 ? level : 0;
  tanks[row + LOST] = (tanks[row + LOST] as number) + (m0 + flow * days - m1);
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

/** Writes down the stretch that ends at `at`: as a segment of the trace, and at the watched instants before its end. */
const note = (run: Run, row: number, at: number): void => {
  const { tanks, trace, watchAt, watchedKg } = run;
  const tank = row / TANK_WIDTH;
  if (trace !== null) traceStretch(run, trace, tank, tanks[row + AT] as number, at);
  if (watchAt === null) return;
  let place = tanks[row + WATCHED] as number;
  for (; place < watchAt.length && (watchAt[place] as number) < at; place += 1)
    watchedKg[tank * watchAt.length + place] = levelAhead(tanks, row, watchAt[place] as number);
  tanks[row + WATCHED] = place;
  if (trace === null) tanks[row + WATCH] = place < watchAt.length ? (watchAt[place] as number) : Infinity;
};

/** Before a run: what is noted of which tank. Lander tanks are not watched, and nothing is outside the run. */
export const startNotes = (run: Run): void => {
  const { tanks, trace, watchAt, watchedKg, plan } = run;
  if (trace !== null) for (let row = 0; row < tanks.length; row += TANK_WIDTH) tanks[row + WATCH] = -Infinity;
  if (watchAt === null) return;
  watchedKg.fill(Number.NaN);
  let first = 0;
  while (first < watchAt.length && (watchAt[first] as number) < plan.asOfAt) first += 1;
  for (let tank = 0; tank < plan.tankPool.length; tank += 1) {
    const isWatched = (plan.tankPool[tank] as number) >= 0 && first < watchAt.length;
    tanks[TANK_WIDTH * tank + WATCHED] = isWatched ? first : watchAt.length;
    if (isWatched && trace === null) tanks[TANK_WIDTH * tank + WATCH] = watchAt[first] as number;
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
