/** What a run of replications is asked: plain data that travels to a worker. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Reading } from "../ledger/journal.ts";

/** Counted up whenever the same job would give other bytes. */
export const KERNEL_VERSION = 1;

/** Replications whose levels and circumstances are kept: the first 20,480. */
export const BAND_REPLICATIONS = 20_480;

/** The plan with its inputs otherwise than they stand. */
export interface RiskVariant {
  /** Taken at their medians. */
  readonly frozenInputIds?: readonly string[];
  /** Taken as the plan has them. */
  readonly certainInputIds?: readonly string[];
  /** Left out, their groundings with them. */
  readonly droppedFlightIds?: readonly string[];
}

export interface RiskJob {
  readonly plan: PlanSnapshot;
  readonly readings: readonly Reading[];
  readonly seed: number;
  /** Instants at which levels are kept, rising; empty: no bands. */
  readonly bandsAt: readonly number[];
  readonly variant: RiskVariant;
}
