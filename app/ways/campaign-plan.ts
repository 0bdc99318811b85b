/** A copy of a plan in which every sortie of a lander class that is still to fly has the demand of one way to fly it. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { DemandLine } from "../sortie/demand.ts";

/**
 * Sorties that are planned and flown by craft of `classId` get the demand; the others stay as they are. The plan that
 * is handed in is not touched.
 */
export const planWithDemand = (plan: PlanSnapshot, classId: string, demand: readonly DemandLine[]): PlanSnapshot => {
  const landers = new Set(plan.craft.filter((craft) => craft.classId === classId).map(({ id }) => id));
  const stated = { kind: "stated" as const, lines: demand.map((line) => ({ ...line })) };
  return {
    ...plan,
    sorties: plan.sorties.map((sortie) =>
      sortie.status === "planned" && landers.has(sortie.landerId) ? { ...sortie, demand: stated } : sortie,
    ),
  };
};
