/**
 * Asks what happens if one flight arrives later, many times over: what comes before is run once and kept, and each
 * question only runs what comes after.
 */
import type { CompiledPlan } from "./compiled-plan.ts";
import { type Engine, arriveAt, begin, proceed } from "./propagate.ts";
import type { Run } from "./run-state.ts";

export interface Probe {
  /** Declares that no question below this slip will follow, ms; to be called with rising slips. */
  startFrom(slipMs: number): void;
  /** The plan with the flight later by so much; statuses, outcomes and times of loading are valid, nothing else. */
  at(slipMs: number): Run;
}

const drawsAtDepot = (plan: CompiledPlan, flight: number): boolean => {
  const first = plan.flightLineStart[flight] ?? 0;
  return plan.lineOriginPool.subarray(first, plan.flightLineStart[flight + 1]).some((pool) => pool >= 0);
};

/** Before an instant: this much, ms, is less than anything that happens is apart from the next. */
const JUST_MS = 0.001;

/** `flight`: its number in the compiled plan; it arrives before the horizon. The engine must not slip anything else. */
export const probeFlight = (engine: Engine, flight: number): Probe => {
  const { run, input } = engine;
  const { plan } = run;
  if (drawsAtDepot(plan, flight))
    return {
      startFrom: () => undefined,
      at: (slipMs) => {
        input.flightSlipMs[flight] = slipMs;
        engine.go();
        input.flightSlipMs[flight] = 0;
        return run;
      },
    };
  const plannedAt = plan.flightArriveAt[flight] ?? 0;
  begin(run, flight);
  const kept = run.state.slice();
  return {
    startFrom: (slipMs) => {
      run.state.set(kept);
      proceed(run, plannedAt + slipMs - JUST_MS);
      kept.set(run.state);
    },
    at: (slipMs) => {
      run.state.set(kept);
      arriveAt(run, flight, plannedAt + slipMs);
      proceed(run, plan.horizonAt);
      return run;
    },
  };
};
