/** The tanks of one propellant at one depot: filled, drawn from, and put in order. */
import { C, HEEL, K, MASS, MAXIMUM, TANK_WIDTH } from "./layout.ts";
import type { Run } from "./run-state.ts";
import { advance } from "./tank-step.ts";
import { traceTaken } from "./trace.ts";

/** Less than a milligram is nothing: books are in grams, and rounding must not make a sortie short. */
export const NOTHING_KG = 1e-6;

/** What can be drawn from one tank at an instant, kg above heel. */
export const drawableOf = (run: Run, tanks: Float64Array, row: number, at: number): number => {
  const over = advance(run, tanks, row, at) - (tanks[row + HEEL] as number);
  return over > 0 ? over : 0;
};

/** What can be drawn from a pool at an instant, kg above heel. */
export const drawable = (run: Run, pool: number, at: number): number => {
  const { tanks } = run;
  const { poolStart, poolTanks } = run.plan;
  let sum = 0;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1)
    sum += drawableOf(run, tanks, TANK_WIDTH * (poolTanks[i] as number), at);
  return sum;
};

/** Draws from tanks already carried to the instant, in drawing order. `by` and `index` say for whom. */
export const draw = (run: Run, pool: number, massKg: number, by: "line" | "need", index: number): void => {
  const { tanks, drawOrder, trace } = run;
  const { poolStart } = run.plan;
  let rest = massKg;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number) && rest > 0; i += 1) {
    const row = drawOrder[i] as number;
    const held = tanks[row + MASS] as number;
    const over = held - (tanks[row + HEEL] as number);
    if (over <= 0) continue;
    const part = over < rest ? over : rest;
    rest -= part;
    tanks[row + MASS] = held - part;
    trace?.drawn.push({ by, index, tank: row / TANK_WIDTH, massKg: part });
  }
};

/** Puts mass into one tank at once, up to its maximum; returns what was put in. */
const fillTank = (run: Run, tanks: Float64Array, row: number, massKg: number, at: number): number => {
  const held = advance(run, tanks, row, at);
  const room = (tanks[row + MAXIMUM] as number) - held;
  if (room <= 0) return 0;
  const part = room < massKg ? room : massKg;
  tanks[row + MASS] = held + part;
  return part;
};

/** Puts mass into the only tank of a pool, as fill does. */
const fillSole = (run: Run, row: number, massKg: number, at: number, line: number): number => {
  const part = fillTank(run, run.tanks, row, massKg, at);
  if (run.trace !== null && part > 0) traceTaken(run.trace, line, row / TANK_WIDTH, part);
  return part;
};

/** Puts mass into the tanks of a pool at once, in filling order; returns what was put in. */
export const fill = (run: Run, pool: number, massKg: number, at: number, line: number): number => {
  const { tanks, fillOrder, trace } = run;
  const { poolStart, poolSoleTank } = run.plan;
  const sole = poolSoleTank[pool] as number;
  if (sole >= 0) return fillSole(run, TANK_WIDTH * sole, massKg, at, line);
  let rest = massKg;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number) && rest > 0; i += 1) {
    const row = fillOrder[i] as number;
    const part = fillTank(run, tanks, row, rest, at);
    if (trace !== null && part > 0) traceTaken(trace, line, row / TANK_WIDTH, part);
    rest = part === rest ? 0 : rest - part;
  }
  return massKg - rest;
};

/** Share of a full tank lost in a day: what tanks are ordered by. */
const lossShare = (tanks: Float64Array, row: number): number => {
  const maximum = tanks[row + MAXIMUM] as number;
  return (tanks[row + K] as number) + (maximum > 0 ? (tanks[row + C] as number) / maximum : 0);
};

/** Whether tank a comes before b: ranked ones by rank, then the others by loss, least first when filling. */
const precedes = (run: Run, a: number, b: number, sign: 1 | -1): boolean => {
  const rankA = run.plan.tankRank[a / TANK_WIDTH] as number;
  const rankB = run.plan.tankRank[b / TANK_WIDTH] as number;
  if (rankA !== rankB) return rankB < 0 || (rankA >= 0 && rankA < rankB);
  const difference = rankA >= 0 ? 0 : sign * (lossShare(run.tanks, a) - lossShare(run.tanks, b));
  return difference === 0 ? a < b : difference < 0;
};

const sortPart = (run: Run, order: Int32Array, from: number, to: number, sign: 1 | -1): void => {
  for (let i = from + 1; i < to; i += 1) {
    const row = order[i] as number;
    let place = i;
    while (place > from && precedes(run, row, order[place - 1] as number, sign)) {
      order[place] = order[place - 1] as number;
      place -= 1;
    }
    order[place] = row;
  }
};

/** Filling order (lowest loss first) and drawing order (highest first) of a pool under the rates in force. */
export const orderPool = (run: Run, pool: number): void => {
  const from = run.plan.poolStart[pool] as number;
  const to = run.plan.poolStart[pool + 1] as number;
  sortPart(run, run.fillOrder, from, to, 1);
  sortPart(run, run.drawOrder, from, to, -1);
};
