/**
 * Metered handovers. While one or more run into a pool, the flow goes to the first tank in filling order that has room;
 * a full tank takes just what it loses. The share that is taken throttles all running handovers alike.
 * A change comes when a tank gets full, a handover has given all, or its time at the port is over.
 */
import { DAY_MS } from "../../app/ground/quantity.ts";
import { daysToLevel } from "../../app/storage/level.ts";
import { advance } from "./pool.ts";
import type { Run } from "./run.ts";
import { traceTaken } from "./trace.ts";

/** Flow into the tanks of one line at full rate, kg/day. */
const fullRate = (run: Run, line: number): number =>
  (run.plan.lineRateKgPerDay[line] as number) * (run.plan.lineKeep[line] as number);

/** Books what has flowed into a pool since it was last settled, and carries its tanks to the instant. */
export const settle = (run: Run, pool: number, at: number): void => {
  const { poolStart, poolTanks } = run.plan;
  const fromAt = run.poolSettledAt[pool] as number;
  const days = (at - fromAt) / DAY_MS;
  run.poolSettledAt[pool] = at;
  let inflow = 0;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
    inflow += (run.f[poolTanks[i] as number] as number) - (run.recordFlow[poolTanks[i] as number] as number);
    advance(run, poolTanks[i] as number, at);
  }
  if (days <= 0 || inflow <= 0) return;
  for (let n = 0; n < run.flowCount; n += 1) {
    const line = run.flows[n] as number;
    if (run.plan.linePool[line] !== pool) continue;
    const rate = fullRate(run, line) * (run.flowShare[line] as number);
    const given = rate * days;
    run.flowLeftKg[line] = (run.flowLeftKg[line] as number) - given;
    run.lineTakenKg[line] = (run.lineTakenKg[line] as number) + given;
    if (run.trace === null) continue;
    for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
      const tank = poolTanks[i] as number;
      const part = (((run.f[tank] as number) - (run.recordFlow[tank] as number)) * days * rate) / inflow;
      if (part <= 0) continue;
      traceTaken(run.trace, line, tank, part);
      run.trace.course.push({ line, tank, fromAt, untilAt: at, massKg: part });
    }
  }
};

/** Ends the handovers of a pool that are done or out of time. */
const endFlows = (run: Run, pool: number, at: number): void => {
  let kept = 0;
  let running = 0;
  for (let n = 0; n < run.flowCount; n += 1) {
    const line = run.flows[n] as number;
    const isHere = run.plan.linePool[line] === pool;
    // Within 1e-10 days (9 µs) of its end: an instant cannot be told more finely.
    const isDone =
      isHere &&
      ((run.flowLeftKg[line] as number) <= fullRate(run, line) * 1e-10 + 1e-9 ||
        (run.flowEndAt[line] as number) <= at ||
        run.poolFlowLine[pool] === line);
    if (isDone) run.lineEndAt[line] = at;
    else {
      run.flows[kept] = line;
      kept += 1;
      if (isHere) running += 1;
    }
  }
  run.flowCount = kept;
  run.poolFlowCount[pool] = running;
};

/** Gives each tank its part of the flow and returns the part that none takes; notes when the next tank gets full. */
const distribute = (run: Run, pool: number, total: number, at: number): number => {
  const { poolStart, tankMaximumKg } = run.plan;
  let rest = total;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
    const tank = run.fillOrder[i] as number;
    const maximum = tankMaximumKg[tank] as number;
    const held = run.massKg[tank] as number;
    const k = run.k[tank] as number;
    const recorded = run.recordFlow[tank] as number;
    const c = (run.c[tank] as number) - recorded;
    const isOver = held > maximum * (1 + 1e-12);
    const isFull = !isOver && held >= maximum * (1 - 1e-12);
    const part = isOver ? 0 : isFull ? Math.min(rest, Math.max(0, k * maximum + c)) : rest;
    run.f[tank] = part + recorded;
    rest -= part;
    if (isFull || (part === 0 && !isOver)) continue;
    const days = daysToLevel(held, k, c - part, maximum);
    if (days !== null && at + days * DAY_MS < (run.poolFlowAt[pool] as number)) {
      run.poolFlowAt[pool] = at + days * DAY_MS;
      run.poolFlowTank[pool] = tank;
    }
  }
  return rest;
};

/** Settles a pool at an instant, ends what is done, and sets the flow into each tank anew. */
export const redirect = (run: Run, pool: number, at: number): void => {
  settle(run, pool, at);
  // Only at its own instant has the line that was foreseen to end ended.
  if (run.poolFlowAt[pool] !== at) run.poolFlowLine[pool] = -1;
  endFlows(run, pool, at);
  run.poolFlowAt[pool] = Infinity;
  run.poolFlowTank[pool] = -1;
  run.poolFlowLine[pool] = -1;
  let total = 0;
  for (let n = 0; n < run.flowCount; n += 1)
    if (run.plan.linePool[run.flows[n] as number] === pool) total += fullRate(run, run.flows[n] as number);
  const refused = distribute(run, pool, total, at);
  if ((run.poolFlowCount[pool] as number) === 0) {
    // A tank above its maximum gets to it some day, but nothing waits for that any more.
    run.poolFlowAt[pool] = Infinity;
    run.poolFlowTank[pool] = -1;
    return;
  }
  const share = total > 0 ? (total - refused) / total : 0;
  let soonestAt = run.poolFlowAt[pool];
  for (let n = 0; n < run.flowCount; n += 1) {
    const line = run.flows[n] as number;
    if (run.plan.linePool[line] !== pool) continue;
    run.flowShare[line] = share;
    const rate = fullRate(run, line) * share;
    const doneAt = rate > 0 ? at + ((run.flowLeftKg[line] as number) / rate) * DAY_MS : Infinity;
    const endAt = Math.min(doneAt, run.flowEndAt[line] as number);
    if (endAt > soonestAt) continue;
    soonestAt = endAt;
    run.poolFlowAt[pool] = endAt;
    run.poolFlowTank[pool] = -1;
    run.poolFlowLine[pool] = line;
  }
};

/** The change that a pool's flow was waiting for. */
export const changeFlow = (run: Run, pool: number): void => {
  const at = run.poolFlowAt[pool] as number;
  const full = run.poolFlowTank[pool] as number;
  settle(run, pool, at);
  // The crossing was solved for: what rounding leaves between is not worth a step.
  if (full >= 0) run.massKg[full] = run.plan.tankMaximumKg[full] as number;
  redirect(run, pool, at);
};

/** Begins a metered handover of `deliverableKg` (as it reaches the tanks) until `endAt` at the latest. */
export const startFlow = (run: Run, line: number, deliverableKg: number, at: number, endAt: number): void => {
  const pool = run.plan.linePool[line] as number;
  if ((run.poolFlowCount[pool] as number) === 0) run.poolSettledAt[pool] = at;
  else settle(run, pool, at);
  run.flows[run.flowCount] = line;
  run.flowCount += 1;
  run.poolFlowCount[pool] = (run.poolFlowCount[pool] as number) + 1;
  run.flowLeftKg[line] = deliverableKg;
  run.flowShare[line] = 0;
  run.flowEndAt[line] = endAt;
  redirect(run, pool, at);
};

/** Closes the books of handovers that still run at the horizon: what has not flowed is still aboard. */
export const breakOff = (run: Run, horizonAt: number): void => {
  for (let pool = 0; pool < run.poolFlowCount.length && run.flowCount > 0; pool += 1)
    if ((run.poolFlowCount[pool] as number) > 0) redirect(run, pool, horizonAt);
  for (let n = 0; n < run.flowCount; n += 1) run.lineEndAt[run.flows[n] as number] = horizonAt;
};
