/**
 * Metered handovers. While one or more run into a pool, the flow goes to the first tank in filling order that has room;
 * a full tank takes just what it loses. The share that is taken throttles all running handovers alike.
 * A change comes when a tank gets full, a handover has given all, or its time at the port is over.
 */
import { DAY_MS } from "../ground/quantity.ts";
import {
  C,
  FLOW,
  FLOWS,
  FLOW_AT,
  FLOW_POOL,
  K,
  MASS,
  MAXIMUM,
  RECORDED_FLOW,
  RECORD_WIDTH,
  TANK_WIDTH,
} from "./layout.ts";
import { leave } from "./left-aboard.ts";
import { daysToLevel } from "../storage/level.ts";
import type { Run } from "./run-state.ts";
import { advance, setInflow } from "./tank-step.ts";
import { traceTaken } from "./trace.ts";

/** Flow into the tanks of one line at full rate, kg/day. */
const fullRate = (run: Run, line: number): number =>
  (run.plan.lineRateKgPerDay[line] as number) * (run.lineKeep[line] as number);

/** Whether a running handover, by place, goes into a pool. */
const isInto = (run: Run, place: number, pool: number): boolean =>
  run.plan.linePool[run.flows[place] as number] === pool;

/** What flows into a tank from handovers: all but what is recorded. */
const handedOver = (run: Run, tank: number): number =>
  (run.tanks[TANK_WIDTH * tank + FLOW] as number) - (run.records[RECORD_WIDTH * tank + RECORDED_FLOW] as number);

/** Notes what a line gave to the tanks of a pool, each by its share of the flow. */
const traceFlow = (run: Run, line: number, fromAt: number, at: number, rate: number, inflow: number): void => {
  const { poolStart, poolTanks, linePool } = run.plan;
  const { trace } = run;
  if (trace === null) return;
  const pool = linePool[line] as number;
  const days = (at - fromAt) / DAY_MS;
  trace.lineTakenKg[line] = (trace.lineTakenKg[line] as number) + rate * days;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
    const tank = poolTanks[i] as number;
    const part = (handedOver(run, tank) * days * rate) / inflow;
    if (part <= 0) continue;
    traceTaken(trace, line, tank, part);
    trace.course.push({ line, tank, fromAt, untilAt: at, massKg: part });
  }
};

/** Books what has flowed into a pool since it was last settled, and carries its tanks to the instant. */
export const settle = (run: Run, pool: number, at: number): void => {
  const { tanks, counters } = run;
  const { poolStart, poolTanks } = run.plan;
  const fromAt = run.poolSettledAt[pool] as number;
  const days = (at - fromAt) / DAY_MS;
  run.poolSettledAt[pool] = at;
  let inflow = 0;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
    const row = TANK_WIDTH * (poolTanks[i] as number);
    inflow += handedOver(run, poolTanks[i] as number);
    advance(run, tanks, row, at);
  }
  if (days <= 0 || inflow <= 0) return;
  for (let place = 0; place < (counters[FLOWS] as number); place += 1) {
    if (!isInto(run, place, pool)) continue;
    const line = run.flows[place] as number;
    const rate = fullRate(run, line) * (run.flowShare[line] as number);
    run.flowLeftKg[line] = (run.flowLeftKg[line] as number) - rate * days;
    traceFlow(run, line, fromAt, at, rate, inflow);
  }
};

/** Whether a running handover has given all, or is out of time. */
const isDone = (run: Run, line: number, pool: number, at: number): boolean =>
  // Within 1e-10 days (9 µs) of its end: an instant cannot be told more finely.
  (run.flowLeftKg[line] as number) <= fullRate(run, line) * 1e-10 + 1e-9 ||
  (run.flowEndAt[line] as number) <= at ||
  run.poolFlowLine[pool] === line;

/** A handover ends: what has not flowed is left. */
const endFlow = (run: Run, line: number, at: number): void => {
  const left = run.flowLeftKg[line] as number;
  if (left > 0) leave(run, line, left);
  if (run.trace !== null) run.trace.lineEndAt[line] = at;
};

/** Ends the handovers of a pool that are done or out of time. */
const endFlows = (run: Run, pool: number, at: number): void => {
  const { counters, flows } = run;
  let kept = 0;
  let running = 0;
  for (let place = 0; place < (counters[FLOWS] as number); place += 1) {
    const line = flows[place] as number;
    const isHere = isInto(run, place, pool);
    if (isHere && isDone(run, line, pool, at)) {
      endFlow(run, line, at);
      continue;
    }
    flows[kept] = line;
    kept += 1;
    if (isHere) running += 1;
  }
  counters[FLOWS] = kept;
  run.poolFlowCount[pool] = running;
};

/** Gives each tank its part of the flow and returns the part that none takes; notes when the next tank gets full. */
const distribute = (run: Run, pool: number, total: number, at: number): number => {
  const { tanks, records } = run;
  const { poolStart } = run.plan;
  let rest = total;
  for (let i = poolStart[pool] as number; i < (poolStart[pool + 1] as number); i += 1) {
    const row = run.fillOrder[i] as number;
    const maximum = tanks[row + MAXIMUM] as number;
    const held = tanks[row + MASS] as number;
    const k = tanks[row + K] as number;
    const recorded = records[(row / TANK_WIDTH) * RECORD_WIDTH + RECORDED_FLOW] as number;
    const c = (tanks[row + C] as number) - recorded;
    const isOver = held > maximum * (1 + 1e-12);
    const isFull = !isOver && held >= maximum * (1 - 1e-12);
    const part = isOver ? 0 : isFull ? Math.min(rest, Math.max(0, k * maximum + c)) : rest;
    setInflow(run, row, part + recorded);
    rest -= part;
    if (isFull || (part === 0 && !isOver)) continue;
    const days = daysToLevel(held, k, c - part, maximum);
    if (days !== null && at + days * DAY_MS < (run.poolFlowAt[pool] as number)) {
      run.poolFlowAt[pool] = at + days * DAY_MS;
      run.poolFlowTank[pool] = row;
    }
  }
  return rest;
};

/** Throttles the handovers of a pool to the share that is taken, and notes which ends first. */
const throttle = (run: Run, pool: number, share: number, at: number): void => {
  let soonestAt = run.poolFlowAt[pool] as number;
  for (let place = 0; place < (run.counters[FLOWS] as number); place += 1) {
    if (!isInto(run, place, pool)) continue;
    const line = run.flows[place] as number;
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

/** Finds the pool whose flow changes first. */
const findNext = (run: Run): void => {
  const { poolFlowAt, clocks, counters } = run;
  let soonestAt = Infinity;
  for (let pool = 0; pool < poolFlowAt.length; pool += 1)
    if ((poolFlowAt[pool] as number) < soonestAt) {
      soonestAt = poolFlowAt[pool] as number;
      counters[FLOW_POOL] = pool;
    }
  clocks[FLOW_AT] = soonestAt;
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
  for (let place = 0; place < (run.counters[FLOWS] as number); place += 1)
    if (isInto(run, place, pool)) total += fullRate(run, run.flows[place] as number);
  const refused = distribute(run, pool, total, at);
  if (run.poolFlowCount[pool] === 0) {
    // A tank above its maximum gets to it some day, but nothing waits for that any more.
    run.poolFlowAt[pool] = Infinity;
    run.poolFlowTank[pool] = -1;
  } else throttle(run, pool, total > 0 ? (total - refused) / total : 0, at);
  findNext(run);
};

/** Whether something runs into a pool; −1 is none. */
export const isRunningInto = (run: Run, pool: number): boolean =>
  run.counters[FLOWS] !== 0 && pool >= 0 && run.poolFlowCount[pool] !== 0;

/** Sets the flow anew where something runs into a pool. */
export const redirectIfRunning = (run: Run, pool: number, at: number): void => {
  if (isRunningInto(run, pool)) redirect(run, pool, at);
};

/** The change that a pool's flow was waiting for. */
export const changeFlow = (run: Run, pool: number): void => {
  const at = run.poolFlowAt[pool] as number;
  const full = run.poolFlowTank[pool] as number;
  settle(run, pool, at);
  // The crossing was solved for: what rounding leaves between is not worth a step.
  if (full >= 0) {
    run.tanks[full + MASS] = run.tanks[full + MAXIMUM] as number;
    run.trace?.full.push({ tank: full / TANK_WIDTH, at });
  }
  redirect(run, pool, at);
};

/** Adds a metered handover to those that run into its pool, of which the flow is then to be set anew. */
export const resumeFlow = (run: Run, line: number, leftKg: number, at: number, endAt: number): void => {
  const { counters } = run;
  const pool = run.plan.linePool[line] as number;
  if (run.poolFlowCount[pool] === 0) run.poolSettledAt[pool] = at;
  else settle(run, pool, at);
  run.flows[counters[FLOWS] as number] = line;
  counters[FLOWS] = (counters[FLOWS] as number) + 1;
  run.poolFlowCount[pool] = (run.poolFlowCount[pool] as number) + 1;
  run.flowLeftKg[line] = leftKg;
  run.flowShare[line] = 0;
  run.flowEndAt[line] = endAt;
};

/** Begins a metered handover of `deliverableKg` (as it reaches the tanks) until `endAt` at the latest. */
export const startFlow = (run: Run, line: number, deliverableKg: number, at: number, endAt: number): void => {
  resumeFlow(run, line, deliverableKg, at, endAt);
  redirect(run, run.plan.linePool[line] as number, at);
};

/** Lets no metered handover run any more; what flowed since the pools were settled is not booked. */
export const stopFlows = (run: Run): void => {
  const { records } = run;
  for (let tank = 0; tank < run.plan.tankIds.length; tank += 1)
    setInflow(run, TANK_WIDTH * tank, records[RECORD_WIDTH * tank + RECORDED_FLOW] as number);
  run.counters[FLOWS] = 0;
  run.clocks[FLOW_AT] = Infinity;
  run.poolFlowAt.fill(Infinity);
  run.poolFlowCount.fill(0);
  run.poolFlowTank.fill(-1);
  run.poolFlowLine.fill(-1);
};

/** Closes the books of handovers that still run at the horizon: what has not flowed is still aboard. */
export const closeFlowsAt = (run: Run, horizonAt: number): void => {
  const { counters } = run;
  for (let pool = 0; pool < run.poolFlowCount.length && counters[FLOWS] !== 0; pool += 1)
    redirectIfRunning(run, pool, horizonAt);
  for (let place = 0; place < (counters[FLOWS] as number); place += 1)
    endFlow(run, run.flows[place] as number, horizonAt);
};
