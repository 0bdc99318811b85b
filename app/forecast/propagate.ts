/** The engine: carries a compiled plan from the as-of instant to the horizon, from event to event, allocating nothing. */
import { type CompiledPlan, EVENT } from "./compiled-plan.ts";
import { putDue, takeDue } from "./due.ts";
import { PLAIN_ARRIVAL } from "./event-table.ts";
import { arrive, depart, emptyDrawingLines, fillUp, setLine } from "./flight-step.ts";
import {
  C,
  DOWN_C,
  DOWN_K,
  FACTOR,
  FLOWS,
  FLOW_AT,
  FLOW_POOL,
  FROM,
  INDEX,
  K,
  KIND,
  MASS,
  MAXIMUM,
  NEXT,
  NOW,
  ORDER,
  PLAN_C,
  PLAN_K,
  REACHED,
  ROWS,
  TANK_WIDTH,
  TO,
  WAITING,
} from "./layout.ts";
import { closeFlowsAt, changeFlow, redirectIfRunning } from "./metered-flow.ts";
import { placeAfter, takeOrder } from "./order.ts";
import { orderPool } from "./pool.ts";
import { takeRecord } from "./record-step.ts";
import { type RunInput, createRunInput, resetInput } from "./run.ts";
import { NEED_TANKS, type Run, createRun } from "./run-state.ts";
import { returnHome, setNeed, tryToLoad, wakeWaiting } from "./sortie-step.ts";
import { advance, applyRate, endNotes, levelAhead, startNotes } from "./tank-step.ts";

/** Lander tanks of sorties that are out at the start are empty: what they carry is not in these books. */
const sendOut = (run: Run): void => {
  const { plan, tanks, needTanks } = run;
  for (const sortie of run.outSorties) {
    const end = plan.sortieLineStart[sortie + 1] as number;
    for (let need = plan.sortieLineStart[sortie] as number; need < end; need += 1)
      tanks[(needTanks[NEED_TANKS * need] as number) + MASS] = 0;
  }
};

/** Puts a run at the as-of instant. `withheld`: a flight whose arrival is left out, −1: none. */
export const begin = (run: Run, withheld = -1): void => {
  const { plan, input, tanks, counters } = run;
  run.state.set(run.image);
  for (let tank = 0; tank < plan.tankIds.length; tank += 1) {
    const row = TANK_WIDTH * tank;
    const factor = input.rateFactor[tank] as number;
    tanks[row + MASS] = input.openingKg[tank] as number;
    tanks[row + FACTOR] = factor;
    tanks[row + K] = (tanks[row + PLAN_K] as number) * factor;
    tanks[row + C] = (tanks[row + PLAN_C] as number) * factor;
  }
  if (run.outSorties.length > 0) sendOut(run);
  if (run.drawingLines.length > 0) emptyDrawingLines(run);
  if (run.sharesTanks) for (let pool = 0; pool < plan.poolKeys.length; pool += 1) orderPool(run, pool);
  if (run.trace !== null || run.watchAt !== null) startNotes(run);
  takeOrder(run, withheld);
  counters[ORDER] = run.order;
};

/** A tank's rate changes: the pool's order and the flow into it follow. */
const changeRate = (run: Run, row: number): void => {
  applyRate(run.tanks, row);
  const tank = (row / TANK_WIDTH) | 0;
  const shared = run.sharedPool[tank] as number;
  if (shared >= 0) orderPool(run, shared);
  const running = run.counters[FLOWS] as number;
  if (running === 0) return;
  const at = run.clocks[NOW] as number;
  redirectIfRunning(run, run.plan.tankPool[tank] as number, at);
  // A handover that ends at this very instant has ended here, not in a change of flow of its own.
  if ((run.counters[FLOWS] as number) < running) wakeWaiting(run, at);
};

const changePlannedRate = (run: Run, event: number): void => {
  const { plan, tanks } = run;
  const { events } = run.table;
  const rate = events[event + INDEX] as number;
  const row = (events[event + FROM] as number) & ROWS;
  advance(run, tanks, row, run.clocks[NOW] as number);
  tanks[row + PLAN_K] = plan.rateK[rate] as number;
  tanks[row + PLAN_C] = plan.rateC[rate] as number;
  changeRate(run, row);
};

const changeOutage = (run: Run, outage: number): void => {
  const { tanks } = run;
  const row = TANK_WIDTH * (run.outageTank[outage] as number);
  advance(run, tanks, row, run.clocks[NOW] as number);
  tanks[row + DOWN_K] = run.outageK[outage] as number;
  tanks[row + DOWN_C] = run.outageC[outage] as number;
  changeRate(run, row);
};

/** What seldom happens: all but plain arrivals, loadings and returns. */
const happenSeldom = (run: Run, kind: number, event: number): void => {
  if (kind === EVENT.rate) {
    changePlannedRate(run, event);
    return;
  }
  const at = run.clocks[NOW] as number;
  const index = run.table.events[event + INDEX] as number;
  if (kind === EVENT.departure) depart(run, event, at);
  else if (kind === EVENT.record) {
    if (takeRecord(run, index, at)) wakeWaiting(run, at);
  } else if (run.input.flightIsLost[index] !== 1 && run.input.flightIsOff[index] !== 1) {
    arrive(run, event, at);
    wakeWaiting(run, at);
  }
};

/** Whether an event is a change of rate: it goes before a change of flow of its instant, everything else after it. */
const isRate = (run: Run, event: number): boolean => event < 0 || run.table.events[event + KIND] === EVENT.rate;

/** The instant of what is due first, or of the next change of flow: whichever is earlier. */
const earliestOther = ({ dueAt, clocks }: Run): number => {
  const soonAt = dueAt[0] as number;
  const flowAt = clocks[FLOW_AT] as number;
  return flowAt < soonAt ? flowAt : soonAt;
};

/**
 * Lets everything happen up to an instant, in order. Three queues run together: what is known, what the run has made
 * due, and changes of metered flow. Numbers settle what happens at one instant.
 *
 * Most of a run is arrivals and sorties, at instants of their own. So the next known event is set against the earliest
 * of all else in one comparison, and plain arrivals are written out here: the compiler takes only so much into one
 * function, and a call for each would cost more than what it does.
 */
export const proceed = (run: Run, lastAt: number): void => {
  const { queueAt, queueNumber, dueAt, dueNumber, counters, clocks, tanks, lineTank, lineDeliverableKg } = run;
  const { events } = run.table;
  const { flightIsLost, flightIsOff, sortieIsOff } = run.input;
  const plain = run.trace === null ? PLAIN_ARRIVAL : -1;
  // Read back from an array of doubles it is a plain number: the argument itself would be unboxed at each event.
  clocks[REACHED] = lastAt;
  const untilAt = clocks[REACHED];
  let next = counters[NEXT] as number;
  let knownAt = queueAt[next] as number;
  let otherAt = earliestOther(run);
  for (;;) {
    let at = knownAt;
    let event: number;
    if (knownAt < otherAt) {
      if (knownAt > untilAt) break;
      event = queueNumber[next] as number;
      next += 1;
    } else {
      const soonAt = dueAt[0] as number;
      const isKnown =
        knownAt < soonAt || (knownAt === soonAt && (queueNumber[next] as number) < (dueNumber[0] as number));
      at = isKnown ? knownAt : soonAt;
      event = (isKnown ? queueNumber[next] : dueNumber[0]) as number;
      const flowAt = clocks[FLOW_AT] as number;
      if (flowAt <= at && flowAt <= untilAt && !(flowAt === at && isKnown && isRate(run, event))) {
        changeFlow(run, counters[FLOW_POOL] as number);
        wakeWaiting(run, flowAt);
        otherAt = earliestOther(run);
        continue;
      }
      if (at > untilAt) break;
      if (isKnown) next += 1;
      else takeDue(run);
    }
    knownAt = queueAt[next] as number;
    if (event < 0) {
      clocks[NOW] = at;
      changeOutage(run, -1 - event);
      otherAt = earliestOther(run);
      continue;
    }
    const row = event & ROWS;
    const kind = events[row + KIND] as number;
    const index = events[row + INDEX] as number;
    if (kind === plain) {
      // What is due and flows stays as it is, unless somebody waits for what arrives.
      if (flightIsLost[index] !== 1 && flightIsOff[index] !== 1) {
        const end = events[row + TO] as number;
        for (let line = (events[row + FROM] as number) & ROWS; line < end; line += 1) {
          const deliverable = lineDeliverableKg[line] as number;
          if (deliverable <= 0) continue;
          const tank = (lineTank[line] as number) & ROWS;
          const held = advance(run, tanks, tank, at);
          const room = (tanks[tank + MAXIMUM] as number) - held;
          if (deliverable <= room) tanks[tank + MASS] = held + deliverable;
          else fillUp(run, line, tank, held, room);
        }
        wakeWaiting(run, at);
      }
      if (counters[WAITING] === 0 && knownAt < otherAt) continue;
    } else {
      clocks[NOW] = at;
      if (kind === EVENT.load) {
        if (sortieIsOff[index] !== 1) tryToLoad(run, index, events[row + FROM] as number, events[row + TO] as number);
      } else if (kind === EVENT.return) {
        returnHome(run, index, events[row + FROM] as number, events[row + TO] as number);
        wakeWaiting(run, at);
      } else happenSeldom(run, kind, event);
    }
    otherAt = earliestOther(run);
  }
  counters[NEXT] = next;
};

/** Closes a run's books at the horizon, to which it has proceeded. */
export const finish = (run: Run): void => {
  const { plan, tanks } = run;
  if (run.counters[FLOWS] !== 0) closeFlowsAt(run, plan.horizonAt);
  for (let row = 0; row < tanks.length; row += TANK_WIDTH) advance(run, tanks, row, plan.horizonAt);
  endNotes(run);
};

/** Lets a run in which a flight was withheld have it arrive at an instant. */
export const arriveAt = (run: Run, flight: number, at: number): void =>
  putDue(run, at, run.table.arrivalNumber[flight] as number);

/** What lines and needs ask for, as the plan has it. */
const resetDemands = (run: Run): void => {
  const { plan } = run;
  for (let line = 0; line < plan.lineLoadedKg.length; line += 1)
    setLine(
      run,
      line,
      plan.lineLoadedKg[line] as number,
      plan.lineChillKg[line] as number,
      plan.lineKeep[line] as number,
    );
  for (let need = 0; need < plan.needLoadKg.length; need += 1)
    setNeed(
      run,
      need,
      plan.needLoadKg[need] as number,
      plan.needChillKg[need] as number,
      plan.needKeep[need] as number,
    );
};

/**
 * An engine for one compiled plan: room for its runs, and the plan's own input, which may be changed between runs.
 * Deterministic: the same input gives the same bits. Masses in kg, instants in ms UTC.
 */
export interface Engine {
  readonly run: Run;
  /** How the next run differs from the plan. */
  readonly input: RunInput;
  /** Sets what a flight's line is to carry, the chilldown and the share kept of what flows at its handovers. */
  setLine(line: number, loadedKg: number, chillKg: number, keep: number): void;
  /** Sets what a sortie's need asks for, with its chilldown and share kept. */
  setNeed(need: number, loadKg: number, chillKg: number, keep: number): void;
  /** Puts input, lines and needs back to the plan. */
  resetPlan(): void;
  /** Runs and gives the results, which the next run overwrites. */
  go(): Run;

  /** The same step by step: to the as-of instant… */
  begin(): void;
  /**
   * …through everything up to and at an instant, any number of times. Between two, the input of what has not happened
   * yet may be changed (not so that it would have happened), and the state kept and put back…
   */
  runUntil(at: number): void;
  /** …and to the horizon. */
  finish(): Run;
  /** The whole state of a run: a copy keeps it, copying it back restores it. Inputs are not in it. */
  readonly state: Uint8Array;
  /** The instant up to which everything has happened. */
  reachedAt(): number;
  /** A tank's level at that instant; the run stays as it is. */
  levelKg(tank: number): number;
  /** Sets a tank's level at that instant. */
  setLevelKg(tank: number, massKg: number): void;

  /** Notes the levels of depot tanks at rising instants in every run from now on, after all that happens at each; null: no more. */
  watch(instants: Float64Array | null): void;
  /** Levels noted by the last run: tank × instants + place; NaN: not a depot's tank, or outside the run. */
  readonly watchedKg: Float64Array;
}

/** Carries a tank to the instant reached and sets its level there. */
const setLevel = (run: Run, tank: number, massKg: number): void => {
  const at = run.clocks[REACHED] as number;
  const row = TANK_WIDTH * tank;
  const pool = run.plan.tankPool[tank] as number;
  advance(run, run.tanks, row, at);
  redirectIfRunning(run, pool, at);
  run.tanks[row + MASS] = massKg;
  redirectIfRunning(run, pool, at);
};

/** Goes on with a run whose input may have changed. */
const resume = (run: Run, at: number): void => {
  takeOrder(run);
  if (run.counters[ORDER] !== run.order) {
    run.counters[NEXT] = placeAfter(run, run.clocks[REACHED] as number);
    run.counters[ORDER] = run.order;
  }
  proceed(run, at);
};

/** An engine for a compiled plan. */
export const createEngine = (plan: CompiledPlan): Engine => {
  const input = createRunInput(plan);
  const run = createRun(plan, input);
  resetDemands(run);
  return {
    run,
    input,
    setLine: (line, loadedKg, chillKg, keep) => setLine(run, line, loadedKg, chillKg, keep),
    setNeed: (need, loadKg, chillKg, keep) => setNeed(run, need, loadKg, chillKg, keep),
    resetPlan: () => {
      resetInput(input, plan);
      resetDemands(run);
    },
    go: () => {
      begin(run);
      proceed(run, plan.horizonAt);
      finish(run);
      return run;
    },
    begin: () => begin(run),
    runUntil: (at) => resume(run, Math.min(at, plan.horizonAt)),
    finish: () => {
      resume(run, plan.horizonAt);
      finish(run);
      return run;
    },
    state: run.state,
    reachedAt: () => Math.max(plan.asOfAt, run.clocks[REACHED] as number),
    levelKg: (tank) => levelAhead(run.tanks, TANK_WIDTH * tank, run.clocks[REACHED] as number),
    setLevelKg: (tank, massKg) => setLevel(run, tank, massKg),
    watch: (instants) => {
      run.watchAt = instants;
      run.watchedKg = new Float64Array(instants === null ? 0 : instants.length * plan.tankIds.length);
    },
    get watchedKg() {
      return run.watchedKg;
    },
  };
};
