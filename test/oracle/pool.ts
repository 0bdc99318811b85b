/** The tanks of one propellant at one depot: carried forward, filled, drawn from, and put in order. */
import { DAY_MS } from "../../app/ground/quantity.ts";
import { phi1 } from "../../app/storage/level.ts";
import type { Run } from "./run.ts";
import { traceStretch, traceTaken } from "./trace.ts";

/** Less than a milligram is nothing: books are in grams, and rounding must not make a sortie short. */
export const NOTHING_KG = 1e-6;

const DAYS_A_MS = 1 / DAY_MS;

/** Carries one tank's level to an instant. */
export const advance = (run: Run, tank: number, at: number): void => {
  const from = run.at[tank] as number;
  if (at <= from) return;
  run.at[tank] = at;
  const m0 = run.massKg[tank] as number;
  const k = run.k[tank] as number;
  const f = run.f[tank] as number;
  const fall = k * m0 + (run.c[tank] as number) - f;
  if (fall !== 0 || f !== 0) {
    const days = (at - from) * DAYS_A_MS;
    const level = m0 - fall * days * phi1(k * days);
    const m1 = level > 0 ? level : 0;
    run.lostKg[tank] = (run.lostKg[tank] as number) + (m0 + f * days - m1);
    run.massKg[tank] = m1;
  }
  if (run.trace !== null) traceStretch(run, run.trace, tank, from, at, m0);
};

/** What can be drawn from a pool at an instant, kg above heel. */
export const drawable = (run: Run, pool: number, at: number): number => {
  const { poolStart, poolTanks, poolSoleTank, tankHeelKg } = run.plan;
  const sole = poolSoleTank[pool] as number;
  if (sole >= 0) {
    advance(run, sole, at);
    const over = (run.massKg[sole] as number) - (tankHeelKg[sole] as number);
    return over > 0 ? over : 0;
  }
  let sum = 0;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
    const tank = poolTanks[i] as number;
    advance(run, tank, at);
    const over = (run.massKg[tank] as number) - (tankHeelKg[tank] as number);
    if (over > 0) sum += over;
  }
  return sum;
};

/** Draws from tanks already carried to the instant, in drawing order. `by` and `index` say for whom. */
export const draw = (run: Run, pool: number, massKg: number, by: "line" | "need", index: number): void => {
  const { poolStart, tankHeelKg } = run.plan;
  let rest = massKg;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number) && rest > 0; i += 1) {
    const tank = run.drawOrder[i] as number;
    const held = run.massKg[tank] as number;
    const over = held - (tankHeelKg[tank] as number);
    if (over <= 0) continue;
    const part = over < rest ? over : rest;
    rest -= part;
    run.massKg[tank] = held - part;
    run.trace?.drawn.push({ by, index, tank, massKg: part });
  }
};

/** Puts mass into one tank at once, up to its maximum; returns what was put in. */
export const fillTank = (run: Run, tank: number, massKg: number, at: number, line: number): number => {
  advance(run, tank, at);
  const held = run.massKg[tank] as number;
  const room = (run.plan.tankMaximumKg[tank] as number) - held;
  if (room <= 0) return 0;
  const part = room < massKg ? room : massKg;
  run.massKg[tank] = held + part;
  if (run.trace !== null) traceTaken(run.trace, line, tank, part);
  return part;
};

/** Puts mass into the tanks of a pool at once, in filling order; returns what was put in. */
export const fill = (run: Run, pool: number, massKg: number, at: number, line: number): number => {
  const { poolStart } = run.plan;
  let rest = massKg;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number) && rest > 0; i += 1) {
    const part = fillTank(run, run.fillOrder[i] as number, rest, at, line);
    rest = part === rest ? 0 : rest - part;
  }
  return massKg - rest;
};

/** Share of a full tank lost in a day: what tanks are ordered by. */
const lossShare = (run: Run, tank: number): number => {
  const maximum = run.plan.tankMaximumKg[tank] as number;
  return (run.k[tank] as number) + (maximum > 0 ? (run.c[tank] as number) / maximum : 0);
};

/** Whether tank a comes before b: ranked ones by rank, then the others by loss, least first when filling. */
const precedes = (run: Run, a: number, b: number, sign: 1 | -1): boolean => {
  const rankA = run.plan.tankRank[a] as number;
  const rankB = run.plan.tankRank[b] as number;
  if (rankA !== rankB) return rankB < 0 || (rankA >= 0 && rankA < rankB);
  const difference = rankA >= 0 ? 0 : sign * (lossShare(run, a) - lossShare(run, b));
  return difference === 0 ? a < b : difference < 0;
};

const sortPart = (run: Run, order: Int32Array, from: number, to: number, sign: 1 | -1): void => {
  for (let i = from + 1; i < to; i += 1) {
    const tank = order[i] as number;
    let place = i;
    while (place > from && precedes(run, tank, order[place - 1] as number, sign)) {
      order[place] = order[place - 1] as number;
      place -= 1;
    }
    order[place] = tank;
  }
};

/** Filling order (lowest loss first) and drawing order (highest first) of a pool under the rates in force. */
export const orderPool = (run: Run, pool: number): void => {
  const from = run.plan.poolStart[pool] as number;
  const to = run.plan.poolStart[pool + 1] as number;
  if (to - from < 2) return;
  sortPart(run, run.fillOrder, from, to, 1);
  sortPart(run, run.drawOrder, from, to, -1);
};
