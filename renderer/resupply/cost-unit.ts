/** The unit of costs where all tanker classes state the same one. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";

/** Empty: none is stated, or they differ. */
export const costUnitOf = (plan: PlanSnapshot): string => {
  const units = new Set(plan.craftClasses.filter(({ role }) => role === "tanker").map(({ costUnit }) => costUnit));
  const [unit, ...others] = units;
  return others.length === 0 ? (unit ?? "") : "";
};
