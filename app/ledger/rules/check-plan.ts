/** The rules that a plan keeps, whoever changes it: every door leads through {@link checkPlan}. */
import { checkProfiles, profileFaults } from "../../sortie/plan-rule.ts";
import type { Change, EntitySet } from "../entities.ts";

export const checkPlan = (after: EntitySet, changes: readonly Change[], _before: EntitySet): void => {
  checkProfiles(after, changes);
};
export const planFaults = (entities: EntitySet): readonly string[] =>
  profileFaults(entities).map(({ message }) => message);
