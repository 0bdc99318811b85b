/** What changes in a sortie with its demand. */
import type { Sortie } from "../../app/entity/sortie.ts";
import { withReturnAlong } from "../../app/sortie/returns-along.ts";
import type { Editing } from "../editing/editing.ts";

/** Another demand; the return follows it, unless it was stated otherwise. */
export const demandPatch = ({ value, plan }: Editing<Sortie>, demand: Sortie["demand"]): Partial<Sortie> => {
  const rows = { craft: plan.craft, craftClass: plan.craftClasses, profile: plan.profiles };
  const { returnAt } = withReturnAlong(rows, value, rows, { ...value, demand });
  return { demand, returnAt };
};
