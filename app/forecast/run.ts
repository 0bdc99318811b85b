/** How one run differs from the plan, and the numbers that stand for what becomes of a sortie. */
import type { CompiledPlan } from "./compiled-plan.ts";

/**
 * Outages of this run, as further rate changes: from `at` on a tank loses at (k, c) because its cooler is down; (0, 0):
 * it runs again. In force is what loses more from a full tank, this or the plan's rate, times the tank's factor.
 * One cooler a tank. In any order; rising instants are quickest.
 */
export interface Outages {
  count: number;
  readonly at: Float64Array;
  readonly tank: Int32Array;
  readonly kPerDay: Float64Array;
  readonly cKgPerDay: Float64Array;
}

/** Room for outages. */
export const createOutages = (capacity: number): Outages => ({
  count: 0,
  at: new Float64Array(capacity),
  tank: new Int32Array(capacity),
  kPerDay: new Float64Array(capacity),
  cKgPerDay: new Float64Array(capacity),
});

/** How a run differs from the plan. All of it may be changed between runs, and is read anew by each. */
export interface RunInput {
  /** Later departure and arrival, ms; a negative one may bring in what lies beyond the horizon. */
  readonly flightSlipMs: Float64Array;
  /** 1: departs and never arrives. */
  readonly flightIsLost: Uint8Array;
  /** 1: not flown, and draws nothing where it comes from. */
  readonly flightIsOff: Uint8Array;
  /** Later loading and return, ms. */
  readonly sortieSlipMs: Float64Array;
  /** 1: not flown. */
  readonly sortieIsOff: Uint8Array;
  /** Factor on k and c of each tank, during outages too. */
  readonly rateFactor: Float64Array;
  readonly openingKg: Float64Array;
  /** May be replaced by a roomier one. */
  outages: Outages;
}

/** The plan as it stands: no slip, no loss, factors 1. */
export const createRunInput = (plan: CompiledPlan): RunInput => ({
  flightSlipMs: new Float64Array(plan.flightIds.length),
  flightIsLost: new Uint8Array(plan.flightIds.length),
  flightIsOff: new Uint8Array(plan.flightIds.length),
  sortieSlipMs: new Float64Array(plan.sortieIds.length),
  sortieIsOff: new Uint8Array(plan.sortieIds.length),
  rateFactor: new Float64Array(plan.tankIds.length).fill(1),
  openingKg: plan.tankOpeningKg.slice(),
  outages: createOutages(0),
});

/** Puts an input back to the plan. */
export const resetInput = (input: RunInput, plan: CompiledPlan): void => {
  input.flightSlipMs.fill(0);
  input.flightIsLost.fill(0);
  input.flightIsOff.fill(0);
  input.sortieSlipMs.fill(0);
  input.sortieIsOff.fill(0);
  input.rateFactor.fill(1);
  input.openingKg.set(plan.tankOpeningKg);
  input.outages.count = 0;
};

/** Status of a sortie at its planned loading, as a number: the greater, the worse. */
export const STATUS = { supplied: 0, thin: 1, short: 2 } as const;

/** pending: the run ended before (horizon, or not flown). */
export const OUTCOME = { flies: 0, waitsAndFlies: 1, standsDown: 2, waiting: 3, pending: 4 } as const;
