/** A sortie's moments: it tries to load, waits or stands down, and comes home. */
import { DAY_MS } from "../ledger/quantity.ts";
import { redirect } from "./metered-flow.ts";
import { NOTHING_KG, advance, draw, drawable } from "./pool.ts";
import { OUTCOME, type Run, type RunInput, STATUS } from "./run.ts";

/** Notes an instant at which a sortie tries again (slot 2·sortie) or returns (2·sortie + 1). */
const setDue = (run: Run, slot: number, at: number): void => {
  if (run.dueAt[slot] === Infinity) {
    run.due[run.dueCount] = slot;
    run.dueCount += 1;
  }
  run.dueAt[slot] = at;
};

/** What a need takes from the depot beyond what is aboard: the top-up with its chilldown and loss. kg */
const gross = (run: Run, need: number, aboardKg: number): number => {
  const { plan } = run;
  const topUp = (plan.needLoadKg[need] as number) - aboardKg;
  return topUp <= NOTHING_KG ? 0 : (plan.needChillKg[need] as number) + topUp / (plan.needKeep[need] as number);
};

/** What is aboard the lander, at most the load. */
const aboard = (run: Run, need: number, at: number): number => {
  const tank = run.plan.needTank[need] as number;
  advance(run, tank, at);
  return Math.min(run.massKg[tank] as number, run.plan.needLoadKg[need] as number);
};

/** Writes down how a sortie stands at its planned loading; its status. */
const assess = (run: Run, sortie: number, at: number): number => {
  const { plan } = run;
  let worst: number = STATUS.supplied;
  for (
    let need = plan.sortieLineStart[sortie] as number;
    need < (plan.sortieLineStart[sortie + 1] as number);
    need += 1
  ) {
    const pool = plan.needPool[need] as number;
    const here = aboard(run, need, at);
    const wanted = gross(run, need, here);
    const free = drawable(run, pool, at);
    const margin = free - wanted - (wanted > 0 ? (plan.poolReserveKg[pool] as number) : 0);
    const status =
      wanted > free + NOTHING_KG ? STATUS.short : wanted > 0 && margin < -NOTHING_KG ? STATUS.thin : STATUS.supplied;
    run.needAvailableKg[need] = here + free;
    run.needRequiredKg[need] = here + wanted;
    run.needMarginKg[need] = margin;
    run.needStatus[need] = status;
    if (status > worst) worst = status;
  }
  return worst;
};

const canLoad = (run: Run, sortie: number, at: number): boolean => {
  const { plan } = run;
  if (run.landerIsAway[plan.sortieLander[sortie] as number] === 1) return false;
  for (
    let need = plan.sortieLineStart[sortie] as number;
    need < (plan.sortieLineStart[sortie + 1] as number);
    need += 1
  ) {
    const wanted = gross(run, need, aboard(run, need, at));
    if (wanted > drawable(run, plan.needPool[need] as number, at) + NOTHING_KG) return false;
  }
  return true;
};

/** Takes the load and leaves; the levels have been carried to the instant. */
const load = (run: Run, sortie: number, at: number): void => {
  const { plan } = run;
  for (
    let need = plan.sortieLineStart[sortie] as number;
    need < (plan.sortieLineStart[sortie + 1] as number);
    need += 1
  ) {
    const pool = plan.needPool[need] as number;
    const tank = plan.needTank[need] as number;
    const held = run.massKg[tank] as number;
    const wanted = Math.min(gross(run, need, held), drawable(run, pool, at));
    run.needAboardKg[need] = held;
    run.needDrawnKg[need] = wanted;
    if (wanted > 0) draw(run, pool, wanted, "need", need);
    run.massKg[tank] = 0;
    if (wanted > 0 && (run.poolFlowCount[pool] as number) > 0) redirect(run, pool, at);
  }
  run.landerIsAway[plan.sortieLander[sortie] as number] = 1;
  run.sortieLoadedAt[sortie] = at;
  setDue(run, 2 * sortie + 1, at + (plan.sortieReturnAt[sortie] as number) - (plan.sortieLoadAt[sortie] as number));
};

/** The first window after an instant, of the orbit of the sortie's depot. ms */
const windowAfter = (run: Run, sortie: number, at: number): number => {
  const period = (run.plan.sortieWindowDays[sortie] as number) * DAY_MS;
  const reference = run.plan.sortieReferenceAt[sortie] as number;
  let n = Math.floor((at - reference) / period);
  while (reference + Math.round(n * period) <= at) n += 1;
  return reference + Math.round(n * period);
};

/** A sortie that cannot load waits for the next window or, without windows, for the next delivery; or stands down. */
const waitOrStandDown = (run: Run, sortie: number, at: number, limitAt: number): void => {
  const hasWindows = (run.plan.sortieWindowDays[sortie] as number) > 0;
  const nextAt = hasWindows ? windowAfter(run, sortie, at) : limitAt;
  const wasWaiting = run.sortieOutcome[sortie] === OUTCOME.waiting;
  const waits = run.plan.waits && nextAt <= limitAt && at < limitAt;
  if (!hasWindows && waits !== wasWaiting) run.anyTimeWaiting += waits ? 1 : -1;
  run.sortieOutcome[sortie] = waits ? OUTCOME.waiting : OUTCOME.standsDown;
  if (waits) setDue(run, 2 * sortie, nextAt);
};

/** A sortie's planned loading, or a further try of one that waits. */
export const tryToLoad = (run: Run, sortie: number, at: number, input: RunInput): void => {
  if (input.sortieIsOff[sortie] === 1) return;
  const isFirst = run.sortieOutcome[sortie] === OUTCOME.pending;
  if (isFirst) {
    const status = assess(run, sortie, at);
    const isAway = run.landerIsAway[run.plan.sortieLander[sortie] as number] as number;
    run.sortieLanderAway[sortie] = isAway;
    run.sortieStatus[sortie] = isAway === 1 ? STATUS.short : status;
  }
  if (isFirst ? run.sortieStatus[sortie] !== STATUS.short : canLoad(run, sortie, at)) {
    if (!isFirst && run.plan.sortieWindowDays[sortie] === 0) run.anyTimeWaiting -= 1;
    run.sortieOutcome[sortie] = isFirst ? OUTCOME.flies : OUTCOME.waitsAndFlies;
    load(run, sortie, at);
    return;
  }
  const plannedAt = (run.plan.sortieLoadAt[sortie] as number) + (input.sortieSlipMs[sortie] as number);
  waitOrStandDown(run, sortie, at, plannedAt + (run.plan.sortieHoldMs[sortie] as number));
};

/** The lander is back with what the sortie leaves aboard. */
export const comeHome = (run: Run, sortie: number, at: number): void => {
  const { plan } = run;
  run.landerIsAway[plan.sortieLander[sortie] as number] = 0;
  for (
    let need = plan.sortieLineStart[sortie] as number;
    need < (plan.sortieLineStart[sortie + 1] as number);
    need += 1
  ) {
    const tank = plan.needTank[need] as number;
    advance(run, tank, at);
    run.massKg[tank] = plan.needReturnKg[need] as number;
  }
};

/** After a delivery or a return: sorties that wait at depots without windows try at once. */
export const wakeWaiting = (run: Run, at: number): void => {
  if (run.anyTimeWaiting === 0) return;
  for (let sortie = 0; sortie < run.sortieOutcome.length; sortie += 1)
    if (run.sortieOutcome[sortie] === OUTCOME.waiting && run.plan.sortieWindowDays[sortie] === 0)
      setDue(run, 2 * sortie, at);
};
