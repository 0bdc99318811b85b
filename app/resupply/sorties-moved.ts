/** A plan with sorties at other dates. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { SortieMoved } from "./answer.ts";

/** Does not touch the plan given. */
export const withSortiesMoved = (plan: PlanSnapshot, moved: readonly SortieMoved[]): PlanSnapshot => {
  const times = new Map(moved.map((row) => [row.sortieId, row]));
  if (times.size === 0) return plan;
  return {
    ...plan,
    sorties: plan.sorties.map((row) => {
      const to = times.get(row.id);
      return to === undefined ? row : { ...row, loadAt: to.loadAt, returnAt: to.returnAt };
    }),
  };
};
