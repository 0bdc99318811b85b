/** The rules that a plan keeps, whoever changes it: every door leads through {@link checkPlan}. */
import type { Change, EntitySet } from "../entities.ts";

export const checkPlan = (_after: EntitySet, _changes: readonly Change[], _before: EntitySet): void => {};
export const planFaults = (_entities: EntitySet): readonly string[] => [];
