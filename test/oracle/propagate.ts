/** The engine: carries a compiled plan from the as-of instant to the horizon, from event to event, allocating nothing. */

import { type CompiledPlan, EVENT, eventKey } from "../../app/forecast/compiled-plan.ts";
import { arrive, depart, emptyDrawingLines, loadFromSources } from "./flight-step.ts";
import { breakOff, changeFlow, redirect } from "./metered-flow.ts";
import { advance, orderPool } from "./pool.ts";
import { NO_EVENT, OUTCOME, type Run, type RunInput, createRun, createRunInput, orderEvents } from "./run.ts";
import { takeRecord } from "./record-step.ts";
import { comeHome, tryToLoad, wakeWaiting } from "./sortie-step.ts";

/** Whether anything is moved against the plan. */
const hasSlips = (input: RunInput): boolean => {
  const { flightSlipMs, sortieSlipMs } = input;
  for (let flight = 0; flight < flightSlipMs.length; flight += 1) if (flightSlipMs[flight] !== 0) return true;
  for (let sortie = 0; sortie < sortieSlipMs.length; sortie += 1) if (sortieSlipMs[sortie] !== 0) return true;
  return false;
};

/** Lander tanks of sorties that are out at the start are empty: what they carry is not in these books. */
const sendOut = (run: Run): void => {
  const { plan } = run;
  for (let sortie = 0; sortie < plan.sortieIsOut.length; sortie += 1) {
    if (plan.sortieIsOut[sortie] === 0 || (plan.sortieLoadAt[sortie] as number) > plan.asOfAt) continue;
    run.landerIsAway[plan.sortieLander[sortie] as number] = 1;
    const end = plan.sortieLineStart[sortie + 1] as number;
    for (let need = plan.sortieLineStart[sortie] as number; need < end; need += 1)
      run.massKg[plan.needTank[need] as number] = 0;
  }
};

/** Puts a run at the as-of instant. */
export const begin = (run: Run, input: RunInput): void => {
  const { plan } = run;
  run.zeros.fill(0);
  run.nans.fill(Number.NaN);
  run.infinities.fill(Infinity);
  run.massKg.set(plan.tankOpeningKg);
  run.at.fill(plan.asOfAt);
  for (let tank = 0; tank < run.k.length; tank += 1) {
    const factor = input.rateFactor[tank] as number;
    run.k[tank] = (plan.tankK[tank] as number) * factor;
    run.c[tank] = (plan.tankC[tank] as number) * factor;
  }
  run.next = 0;
  run.lateEvent = NO_EVENT;
  run.lateAt = Infinity;
  run.flowCount = 0;
  run.poolFlowTank.fill(-1);
  run.poolFlowLine.fill(-1);
  run.poolFlowCount.fill(0);
  run.dueCount = 0;
  run.anyTimeWaiting = 0;
  run.landerIsAway.fill(0);
  run.sortieStatus.fill(0);
  run.sortieOutcome.fill(OUTCOME.pending);
  run.sortieLanderAway.fill(0);
  run.needSurplusKg.set(plan.needSurplusKg);
  sendOut(run);
  if (run.drawingLines.length > 0) emptyDrawingLines(run);
  for (let pool = 0; pool < plan.poolKeys.length; pool += 1) orderPool(run, pool);
  const isMoved = hasSlips(input);
  if (isMoved || run.isReordered) orderEvents(run, input);
  run.isReordered = isMoved;
};

const changeRate = (run: Run, index: number, at: number, input: RunInput): void => {
  const { plan } = run;
  const tank = plan.rateTank[index] as number;
  const factor = input.rateFactor[tank] as number;
  advance(run, tank, at);
  run.k[tank] = (plan.rateK[index] as number) * factor;
  run.c[tank] = (plan.rateC[index] as number) * factor;
  const pool = plan.tankPool[tank] as number;
  if (pool < 0) return;
  orderPool(run, pool);
  const running = run.poolFlowCount[pool] as number;
  if (running > 0) redirect(run, pool, at);
  if ((run.poolFlowCount[pool] as number) < running) wakeWaiting(run, at);
};

/** Place in `due` of the earliest entry; at one instant returns come before loadings, then the lower sortie. −1: none. */
const earliestDue = (run: Run): number => {
  let best = -1;
  for (let n = 0; n < run.dueCount; n += 1) {
    if (best < 0) {
      best = n;
      continue;
    }
    const slot = run.due[n] as number;
    const champion = run.due[best] as number;
    const difference = (run.dueAt[slot] as number) - (run.dueAt[champion] as number);
    if (difference < 0 || (difference === 0 && dueKey(slot) < dueKey(champion))) best = n;
  }
  return best;
};

const dueKey = (slot: number): number => eventKey(0, slot % 2 === 1 ? EVENT.return : EVENT.load, slot >> 1);

const takeDue = (run: Run, place: number, input: RunInput): void => {
  const slot = run.due[place] as number;
  const at = run.dueAt[slot] as number;
  run.dueAt[slot] = Infinity;
  run.dueCount -= 1;
  run.due[place] = run.due[run.dueCount] as number;
  if (slot % 2 === 0) tryToLoad(run, slot >> 1, at, input);
  else {
    comeHome(run, slot >> 1, at);
    wakeWaiting(run, at);
  }
};

/** The pool whose metered flow changes first; −1: none. */
const earliestFlow = (run: Run): number => {
  if (run.flowCount === 0) return -1;
  let best = -1;
  let bestAt = Infinity;
  for (let pool = 0; pool < run.poolFlowAt.length; pool += 1)
    if ((run.poolFlowAt[pool] as number) < bestAt) {
      best = pool;
      bestAt = run.poolFlowAt[pool] as number;
    }
  return best;
};

const happen = (run: Run, event: number, at: number, input: RunInput): void => {
  const index = run.plan.eventIndex[event] as number;
  const kind = run.plan.eventKind[event] as number;
  if (kind === EVENT.arrival) {
    if (input.flightIsLost[index] === 1) return;
    arrive(run, index, at);
    wakeWaiting(run, at);
  } else if (kind === EVENT.load) tryToLoad(run, index, at, input);
  else if (kind === EVENT.record) {
    if (takeRecord(run, index, at)) wakeWaiting(run, at);
  } else if (kind === EVENT.rate) changeRate(run, index, at, input);
  else if (kind === EVENT.departure) depart(run, index, at);
  else {
    comeHome(run, index, at);
    wakeWaiting(run, at);
  }
};

/**
 * Lets everything happen up to an instant, in order. Three queues run together: known events (with one that may be put
 * off), what sorties have become due for, and changes of metered flow.
 */
export const runUntil = (run: Run, input: RunInput, lastAt: number): void => {
  const { plan, order, eventAt } = run;
  const { eventKey: keys } = plan;
  for (;;) {
    let event = run.next < order.length ? (order[run.next] as number) : -1;
    if (event === run.lateEvent) {
      run.next += 1;
      continue;
    }
    let knownAt = event < 0 ? Infinity : (eventAt[event] as number);
    const isLate =
      run.lateAt < knownAt ||
      (run.lateAt === knownAt && run.lateEvent >= 0 && (keys[run.lateEvent] as number) < (keys[event] as number));
    if (isLate) {
      event = run.lateEvent;
      knownAt = run.lateAt;
    }
    const place = run.dueCount === 0 ? -1 : earliestDue(run);
    const slot = place < 0 ? -1 : (run.due[place] as number);
    const dueAt = slot < 0 ? Infinity : (run.dueAt[slot] as number);
    const pool = earliestFlow(run);
    const flowAt = pool < 0 ? Infinity : (run.poolFlowAt[pool] as number);
    const isKnownFirst =
      knownAt < dueAt || (knownAt === dueAt && event >= 0 && (keys[event] as number) <= dueKey(slot));
    const firstAt = isKnownFirst ? knownAt : dueAt;
    // A rate change at the same instant goes before a change of flow, everything else after it.
    const isFlowFirst =
      flowAt < firstAt || (flowAt === firstAt && !(isKnownFirst && plan.eventKind[event] === EVENT.rate));
    const at = isFlowFirst ? flowAt : firstAt;
    if (at > lastAt || at === Infinity) break;
    if (isFlowFirst) {
      changeFlow(run, pool);
      wakeWaiting(run, at);
    } else if (isKnownFirst) {
      if (isLate) run.lateAt = Infinity;
      else run.next += 1;
      happen(run, event, at, input);
    } else takeDue(run, place, input);
  }
};

/** Runs the plan under `input`; results are in `run`, overwritten by the next call. Deterministic. */
export const propagate = (run: Run, input: RunInput): void => {
  const { horizonAt } = run.plan;
  begin(run, input);
  runUntil(run, input, horizonAt);
  if (run.flowCount > 0) breakOff(run, horizonAt);
  for (let tank = 0; tank < run.massKg.length; tank += 1) advance(run, tank, horizonAt);
};

/** An engine for one compiled plan: room for its runs, and the plan's own input, which may be changed between runs. */
export interface Engine {
  readonly run: Run;
  readonly input: RunInput;
  /** Runs and gives the results, which the next run overwrites. */
  go(): Run;
}

export const createEngine = (plan: CompiledPlan): Engine => {
  const run = createRun(plan);
  loadFromSources(run);
  const input = createRunInput(plan);
  return {
    run,
    input,
    go: () => {
      propagate(run, input);
      return run;
    },
  };
};
