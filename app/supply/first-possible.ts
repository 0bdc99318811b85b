/** The first instant at which a short sortie could load if it alone were moved. */
import { compile } from "../forecast/compile.ts";
import { forecast } from "../forecast/forecast.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { type Engine, createEngine } from "../forecast/propagate.ts";
import { STATUS } from "../forecast/run.ts";
import type { Run } from "../forecast/run-state.ts";
import type { Entity } from "../entity/entities.ts";
import { nextWindow, windowsBetween, windowsOf } from "../entity/windows.ts";

const MINUTE_MS = 60_000;

/** What is asked of one sortie: its row, its number in the compiled plan, the plan and an engine for it. */
interface Question {
  readonly plan: PlanSnapshot;
  readonly row: Entity<"sortie">;
  readonly engine: Engine;
  readonly sortie: number;
}

const hasLoaded = (run: Run, sortie: number): boolean =>
  run.sortieStatus[sortie] !== STATUS.short && !Number.isNaN(run.sortieLoadedAt[sortie]);

/** Whether another sortie tries to load at just this instant: then the order of the queue decides. */
const isQueued = (run: Run, sortie: number, at: number): boolean => {
  const { plan } = run;
  for (let other = 0; other < plan.sortieIds.length; other += 1) {
    if (other === sortie || plan.sortieIsOut[other] === 1) continue;
    const plannedAt = plan.sortieLoadAt[other] as number;
    if (plannedAt === at) return true;
    const loadedAt = run.sortieLoadedAt[other] as number;
    const isStillWaiting = !(loadedAt < at) && plannedAt < at && at <= plannedAt + (plan.sortieHoldMs[other] as number);
    if (plan.waits && isStillWaiting) return true;
  }
  return false;
};

/**
 * Whether the sortie loads when it is planned for an instant. The engine's slip answers, but for the place in a queue,
 * which goes by the planned loading: there the plan with the sortie moved is compiled anew.
 */
const loadsAt = ({ plan, row, engine, sortie }: Question, at: number): boolean => {
  engine.input.sortieSlipMs[sortie] = at - (engine.run.plan.sortieLoadAt[sortie] as number);
  const run = engine.go();
  engine.input.sortieSlipMs[sortie] = 0;
  if (!isQueued(run, sortie, at)) return hasLoaded(run, sortie);
  const moved = { ...row, loadAt: at, returnAt: at + row.returnAt - row.loadAt };
  const compiled = compile({ ...plan, sorties: plan.sorties.map((other) => (other.id === row.id ? moved : other)) });
  return hasLoaded(createEngine(compiled).go(), compiled.sortieIds.indexOf(row.id));
};

/** A stretch of time without an event at the depot; `rises`: something may grow in it, as a metered handover runs. */
interface Stretch {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly rises: boolean;
}

/**
 * Stretches from an instant to the horizon between all that changes what the sortie could load: levels of the depot and
 * of the lander, landers coming home, other loadings.
 */
const stretchesAfter = (plan: PlanSnapshot, seen: Forecast, row: Entity<"sortie">, fromAt: number): Stretch[] => {
  const ownerIds = new Set([row.depotId, row.landerId]);
  const isDepots = new Map(plan.tanks.map((tank) => [tank.id, ownerIds.has(tank.ownerId)]));
  const edges = new Set([fromAt, seen.horizonAt]);
  const flows: { readonly startAt: number; readonly endAt: number }[] = [];
  const add = (at: number | null): void => {
    if (at !== null && at > fromAt && at < seen.horizonAt) edges.add(at);
  };
  for (const { tankId, segments } of seen.levels) {
    // A lander without a tank row has one made up: its segments count.
    if (isDepots.get(tankId) === false) continue;
    for (const segment of segments) {
      add(segment.startAt);
      if (segment.fKgPerDay > 0 && segment.endAt > fromAt) flows.push(segment);
    }
  }
  for (const flight of seen.flights) if (flight.arrives) add(flight.arriveAt);
  for (const { plannedAt, loadedAt, returnAt } of seen.sorties) [plannedAt, loadedAt, returnAt].forEach(add);
  const sorted = [...edges].sort((a, b) => a - b);
  const rising = flows.toSorted((a, b) => a.startAt - b.startAt);
  return sorted.slice(0, -1).map((startAt, index) => {
    const endAt = sorted[index + 1] ?? startAt;
    return {
      fromAt: startAt,
      untilAt: endAt,
      rises: rising.some((flow) => flow.startAt < endAt && flow.endAt > startAt),
    };
  });
};

/** How finely a stretch that rises is looked at where any instant will do: what is enough for less is not found. */
const PARTS = 16;

/** At a depot without windows: the first minute of a stretch that rises at which it is enough; null: at no part of it. */
const firstWithin = (question: Question, { fromAt, untilAt }: Stretch): number | null => {
  let before = fromAt;
  for (let part = 1; part <= PARTS; part += 1) {
    const at = Math.ceil(fromAt + ((untilAt - fromAt) * part) / PARTS);
    if (at <= before || !loadsAt(question, at)) {
      before = Math.max(before, at);
      continue;
    }
    let high = at;
    while (high - before > MINUTE_MS) {
      const middle = Math.floor((before + high) / 2);
      if (loadsAt(question, middle)) high = middle;
      else before = middle;
    }
    return high;
  }
  return null;
};

const search = (question: Question, seen: Forecast, untilAt: number): number | null => {
  const { plan, row, engine, sortie } = question;
  const plannedAt = engine.run.plan.sortieLoadAt[sortie] as number;
  const depot = plan.depots.find(({ id }) => id === row.depotId);
  const hasWindows = depot !== undefined && windowsOf(depot) !== null;
  let tried = plannedAt;
  for (const stretch of stretchesAfter(plan, seen, row, plannedAt)) {
    if (stretch.fromAt > untilAt) return null;
    if (!hasWindows) {
      const at = Math.ceil(stretch.fromAt);
      if (at > plannedAt && at > tried && loadsAt(question, at)) return at;
      tried = Math.max(tried, at);
      const within = stretch.rises ? firstWithin(question, stretch) : null;
      if (within !== null) return within;
      continue;
    }
    // Where nothing grows, the first window after a change is the best of them; else each is looked at.
    const first = nextWindow(depot, Math.max(Math.ceil(stretch.fromAt), plannedAt + 1));
    const windows = stretch.rises ? windowsBetween(depot, first, Math.min(stretch.untilAt, seen.horizonAt)) : [first];
    for (const at of windows) {
      if (at > seen.horizonAt) return null;
      if (at <= tried) continue;
      tried = at;
      if (loadsAt(question, at)) return at;
    }
  }
  // What arrives at the horizon itself.
  const isOpen = !hasWindows || nextWindow(depot, seen.horizonAt) === seen.horizonAt;
  const isLeft = seen.horizonAt > tried && seen.horizonAt <= untilAt;
  return isOpen && isLeft && loadsAt(question, seen.horizonAt) ? seen.horizonAt : null;
};

/**
 * The first instant after the planned loading at which sortie number `sortie` of the compiled plan could load, were it
 * alone moved there; at a depot with departure windows, the first such window. null: not up to the horizon. Exact at
 * deliveries and windows, to a minute where a metered handover brings enough. `seen`: the forecast of the plan; `engine`
 * is put back as it was.
 */
export const firstPossible = (plan: PlanSnapshot, seen: Forecast, engine: Engine, sortie: number): number | null => {
  const sortieId = engine.run.plan.sortieIds[sortie];
  const row = plan.sorties.find(({ id }) => id === sortieId);
  if (row === undefined) return null;
  const question = { plan, row, engine, sortie };
  const loadedAt = seen.sorties[sortie]?.loadedAt ?? null;
  // Up to when it loads itself, the forecast is as it would be without it.
  const found = search(question, seen, loadedAt ?? Infinity);
  if (found !== null || loadedAt === null) return found;
  const without = forecast({ ...plan, sorties: plan.sorties.filter(({ id }) => id !== sortieId) });
  return search(question, without, Infinity);
};
