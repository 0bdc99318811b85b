/**
 * What is at least still to be spent of each purse after a label: a bound of its own, from the relaxation with what the
 * purse counts as the cost. A label that must overdraw a purse is dropped long before it does.
 */
import type { Candidates } from "./candidates.ts";
import {
  type CompletionBound,
  type Objective,
  completionBound,
  relaxedProgramme,
  stillToCome,
} from "./completion-bound.ts";
import type { LimitRow } from "./limit-rows.ts";
import type { SolveLinear } from "./linear.ts";
import type { Relaxation } from "./relaxation.ts";

interface PurseBound {
  /** Place among the purses. */
  readonly purse: number;
  readonly most: number;
  readonly bound: CompletionBound;
}

export interface PurseBounds {
  /** Whether a label must overdraw a purse. `lostFrom`, `spentFrom`: places in the label. */
  overdraws(boundary: number, label: Float64Array, from: number, lostFrom: number, spentFrom: number): boolean;
}

/** Purses that count just what is minimised are left out: the bound of the cost is theirs. */
export const purseBounds = (
  candidates: Candidates,
  relaxation: Relaxation,
  cost: Float64Array,
  limits: readonly LimitRow[],
  solve: SolveLinear,
): PurseBounds => {
  const bounds = candidates.problem.purses.flatMap(({ kind, takes, most }, purse): readonly PurseBound[] => {
    if (kind !== "loss" && takes.every((taken, lane) => taken === cost[lane])) return [];
    const objective: Objective = { cost: takes, endValue: kind === "loss" ? 1 : 0 };
    const linear = solve(relaxedProgramme(candidates, relaxation, objective, limits));
    return [{ purse, most, bound: completionBound(candidates, relaxation, objective, limits, linear) }];
  });
  return {
    overdraws: (boundary, label, from, lostFrom, spentFrom) => {
      for (let n = 0; n < bounds.length; n += 1) {
        const { purse, most, bound } = bounds[n] as PurseBound;
        const still = stillToCome(bound, relaxation, boundary, label, from, lostFrom);
        if (still - (label[spentFrom + purse] as number) > most + 1e-6 * Math.max(1, Math.abs(most))) return true;
      }
      return false;
    },
  };
};
