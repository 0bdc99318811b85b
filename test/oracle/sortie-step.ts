/** A sortie's moments: it tries to load, waits or stands down, and comes home. */
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

/** Looks at one need: what is aboard, what the top-up takes with its chilldown and loss, what the depot can give. */
const survey = (run: Run, need: number, at: number): void => {
  const { plan } = run;
  const tank = plan.needTank[need] as number;
  advance(run, tank, at);
  const held = run.massKg[tank] as number;
  const topUp = (plan.needLoadKg[need] as number) - held;
  run.needAboardKg[need] = held;
  run.needWantedKg[need] =
    topUp <= NOTHING_KG ? 0 : (plan.needChillKg[need] as number) + topUp / (plan.needKeep[need] as number);
  run.needFreeKg[need] = drawable(run, plan.needPool[need] as number, at);
};

/** Writes down how a sortie stands at its planned loading; its status. */
const assess = (run: Run, sortie: number, at: number): number => {
  const { plan } = run;
  const end = plan.sortieLineStart[sortie + 1] as number;
  let worst: number = STATUS.supplied;
  for (let need = plan.sortieLineStart[sortie] as number; need < end; need += 1) {
    survey(run, need, at);
    const held = run.needAboardKg[need] as number;
    const load = plan.needLoadKg[need] as number;
    const here = held < load ? held : load;
    const wanted = run.needWantedKg[need] as number;
    const free = run.needFreeKg[need] as number;
    const reserve = wanted > 0 ? (plan.poolReserveKg[plan.needPool[need] as number] as number) : 0;
    const margin = free - wanted - reserve;
    const isShort = wanted > free + NOTHING_KG;
    const status = isShort ? STATUS.short : wanted > 0 && margin < -NOTHING_KG ? STATUS.thin : STATUS.supplied;
    run.needAvailableKg[need] = here + free;
    run.needRequiredKg[need] = here + wanted;
    run.needMarginKg[need] = margin;
    run.needStatus[need] = status;
    if (status > worst) worst = status;
  }
  return worst;
};

/** Whether a sortie that waits can load now. */
const canLoad = (run: Run, sortie: number, at: number): boolean => {
  const { plan } = run;
  if (run.landerIsAway[plan.sortieLander[sortie] as number] === 1) return false;
  const end = plan.sortieLineStart[sortie + 1] as number;
  for (let need = plan.sortieLineStart[sortie] as number; need < end; need += 1) {
    survey(run, need, at);
    if ((run.needWantedKg[need] as number) > (run.needFreeKg[need] as number) + NOTHING_KG) return false;
  }
  return true;
};

/** Takes what was surveyed at this instant and leaves. */
const load = (run: Run, sortie: number, at: number): void => {
  const { plan } = run;
  const end = plan.sortieLineStart[sortie + 1] as number;
  for (let need = plan.sortieLineStart[sortie] as number; need < end; need += 1) {
    const pool = plan.needPool[need] as number;
    const wanted = run.needWantedKg[need] as number;
    const free = run.needFreeKg[need] as number;
    const drawn = wanted < free ? wanted : free;
    run.needDrawnKg[need] = drawn;
    run.needSurplusKg[need] = Math.max(0, (run.needAboardKg[need] as number) - (plan.needLoadKg[need] as number));
    run.massKg[plan.needTank[need] as number] = 0;
    if (drawn <= 0) continue;
    draw(run, pool, drawn, "need", need);
    if ((run.poolFlowCount[pool] as number) > 0) redirect(run, pool, at);
  }
  run.landerIsAway[plan.sortieLander[sortie] as number] = 1;
  run.sortieLoadedAt[sortie] = at;
  setDue(run, 2 * sortie + 1, at + (plan.sortieReturnAt[sortie] as number) - (plan.sortieLoadAt[sortie] as number));
};

/** The first window after an instant, of the orbit of the sortie's depot. ms */
const windowAfter = (run: Run, sortie: number, at: number): number => {
  const windows = run.plan.sortieWindows[sortie];
  if (windows?.kind === "list") return windows.at.find((window) => window > at) ?? Infinity;
  const period = windows?.periodMs ?? Infinity;
  const reference = windows?.referenceAt ?? 0;
  let n = Math.floor((at - reference) / period);
  while (reference + Math.round(n * period) <= at) n += 1;
  return reference + Math.round(n * period);
};

/** A sortie that cannot load waits for the next window or, without windows, for the next delivery; or stands down. */
const waitOrStandDown = (run: Run, sortie: number, at: number, limitAt: number): void => {
  const hasWindows = run.plan.sortieWindows[sortie] !== null;
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
    if (!isFirst && run.plan.sortieWindows[sortie] === null) run.anyTimeWaiting -= 1;
    run.sortieOutcome[sortie] = isFirst ? OUTCOME.flies : OUTCOME.waitsAndFlies;
    load(run, sortie, at);
    return;
  }
  const plannedAt = (run.plan.sortieLoadAt[sortie] as number) + (input.sortieSlipMs[sortie] as number);
  waitOrStandDown(run, sortie, at, plannedAt + (run.plan.sortieHoldMs[sortie] as number));
};

/** The lander is back with what the sortie leaves aboard, and with what it left with beyond its need. */
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
    run.massKg[tank] = (plan.needReturnKg[need] as number) + (run.needSurplusKg[need] as number);
  }
};

/** After a delivery or a return: sorties that wait at depots without windows try at once. */
export const wakeWaiting = (run: Run, at: number): void => {
  if (run.anyTimeWaiting === 0) return;
  for (let sortie = 0; sortie < run.sortieOutcome.length; sortie += 1)
    if (run.sortieOutcome[sortie] === OUTCOME.waiting && run.plan.sortieWindows[sortie] === null)
      setDue(run, 2 * sortie, at);
};
