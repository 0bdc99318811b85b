/** The first instant at which a short sortie could load if it alone were moved. */
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import { EVENT } from "../forecast/compiled-plan.ts";
import { type Engine, createEngine } from "../forecast/propagate.ts";
import { STATUS } from "../forecast/run.ts";
import { createTrace } from "../forecast/trace.ts";
import { nextWindow } from "../ledger/windows.ts";

const MINUTE_MS = 60_000;

/** Whether the sortie could load when moved to an instant. */
const loadsAt = (engine: Engine, sortie: number, at: number): boolean => {
  const { plan } = engine.run;
  engine.input.sortieSlipMs[sortie] = at - (plan.sortieLoadAt[sortie] ?? 0);
  const run = engine.go();
  engine.input.sortieSlipMs[sortie] = 0;
  return run.sortieStatus[sortie] !== STATUS.short && !Number.isNaN(run.sortieLoadedAt[sortie]);
};

/**
 * Instants after the planned loading at which more may be there than before: deliveries, the ends of metered flows and
 * whatever bends them, landers coming home, other sorties standing down or going; from the forecast without this sortie.
 */
const instantsOfChange = (compiled: CompiledPlan, sortie: number): readonly number[] => {
  const engine = createEngine(compiled);
  const trace = createTrace(compiled);
  engine.run.trace = trace;
  engine.input.sortieIsOff[sortie] = 1;
  engine.go();
  const plannedAt = compiled.sortieLoadAt[sortie] ?? 0;
  const instants = new Set<number>();
  for (const at of trace.startAt) if (at > plannedAt && at <= compiled.horizonAt) instants.add(at);
  compiled.eventAt.forEach((at, event) => {
    if (compiled.eventKind[event] !== EVENT.rate && at > plannedAt) instants.add(at);
  });
  return [...instants].sort((a, b) => a - b);
};

/** Within metered flow the level rises between events: the first minute at which it is enough. */
const refine = (engine: Engine, sortie: number, fromAt: number, untilAt: number): number => {
  let low = fromAt;
  let high = untilAt;
  while (high - low > MINUTE_MS) {
    const middle = Math.floor((low + high) / 2);
    if (loadsAt(engine, sortie, middle)) high = middle;
    else low = middle;
  }
  return high;
};

/**
 * The first instant after the planned loading at which sortie number `sortie` of the compiled plan could load, were it
 * alone moved there; at a depot with departure windows, the first window. null: not before the horizon. Exact at
 * deliveries, to a minute where a metered handover is what brings enough. `engine` is put back as it was.
 */
export const firstPossible = (engine: Engine, sortie: number): number | null => {
  const compiled = engine.run.plan;
  const changes = instantsOfChange(compiled, sortie);
  const orbit = {
    windowPeriodDays: compiled.sortieWindowDays[sortie] || null,
    windowReferenceAt: compiled.sortieReferenceAt[sortie] ?? null,
  };
  let before = compiled.sortieLoadAt[sortie] ?? 0;
  for (const change of changes) {
    const at = nextWindow(orbit, Math.ceil(change));
    if (at > compiled.horizonAt || at <= before) continue;
    if (loadsAt(engine, sortie, at)) return orbit.windowPeriodDays === null ? refine(engine, sortie, before, at) : at;
    before = at;
  }
  return null;
};
