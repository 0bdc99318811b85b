/**
 * Asks what happens if one flight arrives later, many times over: what comes before is run once and kept, and each
 * question only runs what comes after.
 */
import { type CompiledPlan, EVENT } from "./compiled-plan.ts";
import { type Engine, begin, runUntil } from "./propagate.ts";
import type { Run } from "./run.ts";

/** The parts of a run that what follows depends on. What flights have given so far is not among them. */
const liveArrays = (run: Run) => [
  run.massKg,
  run.at,
  run.k,
  run.c,
  run.f,
  run.fillOrder,
  run.drawOrder,
  run.poolFlowAt,
  run.poolFlowTank,
  run.poolFlowLine,
  run.poolFlowCount,
  run.poolSettledAt,
  run.dueAt,
  run.due,
  run.landerIsAway,
  run.sortieStatus,
  run.sortieOutcome,
  run.sortieLoadedAt,
  run.sortieLanderAway,
];

/** Those that only matter where metered handovers or draws at depots of origin are in the plan. */
const flowArrays = (run: Run) => [run.flows, run.flowLeftKg, run.flowShare, run.flowEndAt];
const drawingArrays = (run: Run) => [run.lineLoadedKg, run.lineOfferedKg, run.lineDeliverableKg];

/** A place to keep a run's state. */
const keeper = (run: Run) => {
  const { plan } = run;
  const arrays = [
    ...liveArrays(run),
    ...(plan.lineRateKgPerDay.some((rate) => rate > 0) ? flowArrays(run) : []),
    ...(run.drawingLines.length > 0 ? drawingArrays(run) : []),
  ];
  const kept = arrays.map((array) => array.slice());
  const scalars = { next: 0, flowCount: 0, dueCount: 0, anyTimeWaiting: 0 };
  return {
    keep: () => {
      arrays.forEach((array, i) => kept[i]?.set(array));
      scalars.next = run.next;
      scalars.flowCount = run.flowCount;
      scalars.dueCount = run.dueCount;
      scalars.anyTimeWaiting = run.anyTimeWaiting;
    },
    restore: () => {
      for (let i = 0; i < arrays.length; i += 1) arrays[i]?.set(kept[i] ?? []);
      run.next = scalars.next;
      run.flowCount = scalars.flowCount;
      run.dueCount = scalars.dueCount;
      run.anyTimeWaiting = scalars.anyTimeWaiting;
    },
  };
};

export interface Probe {
  /** Declares that no question below this slip will follow, ms; to be called with rising slips. */
  startFrom(slipMs: number): void;
  /** The plan with the flight later by so much; statuses, outcomes and times of loading are valid, nothing else. */
  at(slipMs: number): Run;
}

const arrivalOf = (plan: CompiledPlan, flight: number): number => {
  for (let event = 0; event < plan.eventAt.length; event += 1)
    if (plan.eventIndex[event] === flight && plan.eventKind[event] === EVENT.arrival) return event;
  return -1;
};

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
  const event = arrivalOf(plan, flight);
  if (event < 0 || drawsAtDepot(plan, flight))
    return {
      startFrom: () => undefined,
      at: (slipMs) => {
        input.flightSlipMs[flight] = slipMs;
        engine.go();
        input.flightSlipMs[flight] = 0;
        return run;
      },
    };
  const arriveAt = plan.flightArriveAt[flight] ?? 0;
  const state = keeper(run);
  begin(run, input);
  state.keep();
  return {
    startFrom: (slipMs) => {
      state.restore();
      run.lateEvent = event;
      run.lateAt = Infinity;
      runUntil(run, input, arriveAt + slipMs - JUST_MS);
      state.keep();
    },
    at: (slipMs) => {
      state.restore();
      run.lateEvent = event;
      run.lateAt = arriveAt + slipMs;
      runUntil(run, input, plan.horizonAt);
      return run;
    },
  };
};
