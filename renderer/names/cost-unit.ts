/** The unit of costs where all that state a cost state it in the same one. */
import type { Entity } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";

/** Of all classes that have a cost. Empty: none has, or they differ. */
export const commonCostUnit = (classes: readonly Entity<"craftClass">[]): string => {
  const [unit, ...others] = new Set(
    classes.filter(({ costPerFlight }) => costPerFlight !== null).map(({ costUnit }) => costUnit),
  );
  return others.length === 0 ? (unit ?? "") : "";
};

/** Of all tanker classes. Empty: none is stated, or they differ. */
export const costUnitOf = (plan: PlanSnapshot): string => {
  const units = new Set(plan.craftClasses.filter(({ role }) => role === "tanker").map(({ costUnit }) => costUnit));
  const [unit, ...others] = units;
  return others.length === 0 ? (unit ?? "") : "";
};
