/** What flights that nobody may move ask for at once and cannot have: more ports than there are, one hull in two places. */
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { hullFindings } from "../supply/hulls.ts";
import { portConflicts } from "../supply/port-conflicts.ts";
import type { PlanFinding } from "../supply/answer.ts";

/** Of firm flights and those under way alone: no proposal mends what stands between them. */
export const contradictionsOf = (plan: PlanSnapshot): readonly PlanFinding[] => {
  const isFixed = ({ status }: PlanSnapshot["flights"][number]): boolean => status === "firm" || status === "departed";
  if (plan.flights.filter(isFixed).length < 2) return [];
  const fixed = { ...plan, flights: plan.flights.filter(isFixed) };
  const seen = forecast(fixed);
  return [...portConflicts(fixed, seen), ...hullFindings(fixed, seen)];
};
