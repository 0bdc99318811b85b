/** The rows of a plan that a field may name. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Named } from "../words/named.ts";
import type { NamedValue } from "./field.ts";

const craftOfRole = ({ craft, craftClasses }: PlanSnapshot, role: NamedValue["role"]): readonly Named[] =>
  role === undefined
    ? craft
    : craft.filter(({ classId }) => craftClasses.find(({ id }) => id === classId)?.role === role);

/** Those that may be chosen; without a role all craft. */
export const rowsToName = (plan: PlanSnapshot, { of, role }: Pick<NamedValue, "of" | "role">): readonly Named[] => {
  if (of === "craft") return craftOfRole(plan, role);
  return of === "depot" ? plan.depots : plan.campaigns;
};
