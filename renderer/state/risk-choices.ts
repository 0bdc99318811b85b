/** What the person asks of the risk: seed, how many runs or to what error, and for which state of the plan a long run was asked. */
import { useSyncExternalStore } from "react";
import { createStore } from "./store.ts";

export interface RiskChoices {
  readonly seed: number;
  readonly runs: number;
  /** Largest standard error of the probability that all fly when planned. */
  readonly error: number;
  /** The long run that was asked for; null: the quick answer is enough. */
  readonly asked: {
    /** The state of the ledger and the case that it was asked of. */
    readonly of: string;
    readonly seed: number;
    readonly runs: number;
    readonly untilError: number | null;
  } | null;
}

export const MAX_RUNS = 10_000_000;
/** What a quick answer takes: enough for one percentage point. */
export const QUICK_RUNS = 4096;

const choices = createStore<RiskChoices>({ seed: 1, runs: 100_000, error: 0.005, asked: null });

export const setRiskChoices = (change: Partial<RiskChoices>): void => choices.set(change);

export const useRiskChoices = (): RiskChoices => useSyncExternalStore(choices.subscribe, choices.get);
