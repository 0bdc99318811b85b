/** A sortie's moments: it tries to load, waits or stands down, and comes home. */
import { bringForward, putDue } from "./due.ts";
import { EVENT } from "./compiled-plan.ts";
import { type Windows, windowAfter } from "../entity/windows.ts";
import {
  ABOARD,
  AGAIN,
  AT,
  CHILL,
  FLOWS,
  FREE,
  HAS_WINDOWS,
  HEEL,
  HOLD_MS,
  INDEX,
  KEEP,
  KIND,
  LOAD,
  LOAD_AT,
  MASS,
  NEED_WIDTH,
  NOW,
  RESERVE,
  RETURNED,
  RETURN_AT,
  ROWS,
  SORTIE_WIDTH,
  SURVEY_WIDTH,
  WAITING,
  WANTED,
  WATCH,
} from "./layout.ts";
import { redirectIfRunning } from "./metered-flow.ts";
import { NOTHING_KG, draw, drawable, drawableOf } from "./pool.ts";
import { OUTCOME, STATUS } from "./run.ts";
import { NEED_TANKS, type Run } from "./run-state.ts";
import { advance } from "./tank-step.ts";

/**
 * Looks at the needs from … to: what is aboard, what the top-up takes with its chilldown and loss, what the depot can
 * give. The worst status of them. `again`: AGAIN at a further try, which ends at the first that is short; else 0.
 */
const survey = (run: Run, from: number, to: number, again: number): number => {
  const at = run.clocks[NOW] as number;
  const { tanks, needs, needTanks, surveys } = run;
  let worst: number = STATUS.supplied;
  for (let need = from & ROWS; need < to; need += 1) {
    const row = NEED_WIDTH * need;
    const found = SURVEY_WIDTH * need + again;
    const held = advance(run, tanks, (needTanks[NEED_TANKS * need] as number) & ROWS, at);
    const topUp = (needs[row + LOAD] as number) - held;
    const wanted = topUp <= NOTHING_KG ? 0 : (needs[row + CHILL] as number) + topUp / (needs[row + KEEP] as number);
    const tank = needTanks[NEED_TANKS * need + 1] as number;
    const free = tank >= 0 ? drawableOf(run, tanks, tank & ROWS, at) : tank === -1 ? 0 : drawable(run, -2 - tank, at);
    surveys[found + ABOARD] = held;
    surveys[found + WANTED] = wanted;
    surveys[found + FREE] = free;
    if (wanted > free + NOTHING_KG) {
      worst = STATUS.short;
      if (again !== 0) return worst;
    } else if (
      worst === STATUS.supplied &&
      wanted > 0 &&
      free - wanted - (needs[row + RESERVE] as number) < -NOTHING_KG
    )
      worst = STATUS.thin;
  }
  return worst;
};

/** Takes from the depot for one need, which several tanks or one give. */
const takeFrom = (run: Run, tank: number, drawn: number, need: number): void => {
  const { tanks } = run;
  if (tank >= 0 && run.trace === null) {
    const held = tanks[tank + MASS] as number;
    const over = held - (tanks[tank + HEEL] as number);
    if (over > 0) tanks[tank + MASS] = held - (over < drawn ? over : drawn);
  } else draw(run, run.plan.needPool[need] as number, drawn, "need", need);
  if (run.counters[FLOWS] !== 0) redirectIfRunning(run, run.plan.needPool[need] as number, run.clocks[NOW] as number);
};

/** Takes what was surveyed at this instant. All that is aboard goes along, also what the need does not ask for. */
const take = (run: Run, from: number, to: number, again: number): void => {
  const { tanks, needTanks, surveys, needs, surplusKg } = run;
  for (let need = from & ROWS; need < to; need += 1) {
    const found = SURVEY_WIDTH * need + again;
    const wanted = surveys[found + WANTED] as number;
    const free = surveys[found + FREE] as number;
    const drawn = wanted < free ? wanted : free;
    const over = (surveys[found + ABOARD] as number) - (needs[NEED_WIDTH * need + LOAD] as number);
    surplusKg[need] = over > 0 ? over : 0;
    tanks[(needTanks[NEED_TANKS * need] as number) + MASS] = 0;
    if (drawn > 0) takeFrom(run, needTanks[NEED_TANKS * need + 1] as number, drawn, need);
  }
};

/** A sortie that cannot load waits for the next window or, without windows, for the next delivery; or stands down. */
const waitOrStandDown = (run: Run, sortie: number): void => {
  const at = run.clocks[NOW] as number;
  const { plan, sorties, sortieOutcome, counters } = run;
  const row = SORTIE_WIDTH * sortie;
  const slip = run.slipMs[plan.flightIds.length + sortie] as number;
  const limitAt = (sorties[row + LOAD_AT] as number) + slip + (sorties[row + HOLD_MS] as number);
  const windows = plan.sortieWindows[sortie] as Windows | null;
  const nextAt = windows === null ? limitAt : windowAfter(windows, at);
  const waits = plan.waits && nextAt <= limitAt && at < limitAt;
  const wasWaiting = sortieOutcome[sortie] === OUTCOME.waiting;
  if (windows === null && waits !== wasWaiting) counters[WAITING] = (counters[WAITING] as number) + (waits ? 1 : -1);
  sortieOutcome[sortie] = waits ? OUTCOME.waiting : OUTCOME.standsDown;
  if (waits) putDue(run, nextAt, run.table.dueNumber[2 * sortie] as number);
};

/** A sortie leaves; its return becomes due. */
const leave = (run: Run, sortie: number): void => {
  const at = run.clocks[NOW] as number;
  const { sorties, sortieOutcome, counters } = run;
  const row = SORTIE_WIDTH * sortie;
  const wasWaiting = sortieOutcome[sortie] === OUTCOME.waiting;
  if (wasWaiting && sorties[row + HAS_WINDOWS] === 0) counters[WAITING] = (counters[WAITING] as number) - 1;
  sortieOutcome[sortie] = wasWaiting ? OUTCOME.waitsAndFlies : OUTCOME.flies;
  run.landerIsAway[run.plan.sortieLander[sortie] as number] = 1;
  run.sortieLoadedAt[sortie] = at;
  const returnAt = at + (sorties[row + RETURN_AT] as number) - (sorties[row + LOAD_AT] as number);
  putDue(run, returnAt, run.table.dueNumber[2 * sortie + 1] as number);
};

/** A sortie's planned loading, or a further try of one that waits. Its needs are from … to. */
export const tryToLoad = (run: Run, sortie: number, from: number, to: number): void => {
  const again = run.sortieOutcome[sortie] === OUTCOME.pending ? 0 : AGAIN;
  const isAway = run.landerIsAway[run.plan.sortieLander[sortie] as number] as number;
  // The planned loading is looked at even while the lander is away: it says what would be there.
  const found = again !== 0 && isAway === 1 ? STATUS.short : survey(run, from, to, again);
  const status = isAway === 1 ? STATUS.short : found;
  if (again === 0) {
    run.sortieStatus[sortie] = status;
    run.sortieLanderAway[sortie] = isAway;
  }
  if (status === STATUS.short) {
    waitOrStandDown(run, sortie);
    return;
  }
  take(run, from, to, again);
  leave(run, sortie);
};

/** The lander is back with what the sortie, its needs from … to, leaves aboard, and with what it left with beyond them. */
export const returnHome = (run: Run, sortie: number, from: number, to: number): void => {
  const { tanks, needs, needTanks, surplusKg } = run;
  const at = run.clocks[NOW] as number;
  run.landerIsAway[run.plan.sortieLander[sortie] as number] = 0;
  for (let need = from & ROWS; need < to; need += 1) {
    const row = (needTanks[NEED_TANKS * need] as number) & ROWS;
    // As good as always it is empty since it left: it has lost nothing, and there is no level to work out.
    const isEmpty = tanks[row + MASS] === 0 && tanks[row + WATCH] === Infinity && at > (tanks[row + AT] as number);
    if (isEmpty) tanks[row + AT] = at;
    else advance(run, tanks, row, at);
    tanks[row + MASS] = (needs[NEED_WIDTH * need + RETURNED] as number) + (surplusKg[need] as number);
  }
};

/** Whether an event is a further try of a sortie that waits for a delivery. */
const waitsForDelivery = (run: Run, event: number): boolean => {
  const { events } = run.table;
  const sortie = events[event + INDEX] as number;
  return events[event + KIND] === EVENT.load && run.sorties[SORTIE_WIDTH * sortie + HAS_WINDOWS] === 0;
};

/** After a delivery or a return: sorties that wait at depots without windows try at once. */
export const wakeWaiting = (run: Run, at: number): void => {
  if (run.counters[WAITING] !== 0) bringForward(run, at, waitsForDelivery);
};

/** Sets what a need asks for and how it is handed over. What comes home of it is at most the load. */
export const setNeed = (run: Run, need: number, loadKg: number, chillKg: number, keep: number): void => {
  const row = NEED_WIDTH * need;
  run.needs[row + LOAD] = loadKg;
  run.needs[row + CHILL] = chillKg;
  run.needs[row + KEEP] = keep;
  run.needs[row + RETURNED] = Math.min(run.plan.needReturnKg[need] as number, loadKg);
};
