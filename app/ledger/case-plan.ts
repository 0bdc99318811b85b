/** One plan case as a plan, without what is recorded: for comparisons of plans of which no books are at hand. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { EntitySet } from "../entity/entities.ts";

/** null: there is no such case. */
export const casePlan = (entities: EntitySet, planCaseId: string): PlanSnapshot | null => {
  const planCase = entities.planCase.find(({ id }) => id === planCaseId);
  if (planCase === undefined) return null;
  const isOf = (row: { readonly planCaseId: string | null }): boolean =>
    row.planCaseId === null || row.planCaseId === planCaseId;
  return {
    planCase,
    asOfAt: planCase.horizonAt,
    horizonAt: planCase.horizonAt,
    propellants: entities.propellant,
    depots: entities.depot,
    sources: entities.source,
    craftClasses: entities.craftClass,
    profiles: entities.profile,
    craft: entities.craft,
    tanks: entities.tank,
    lossPeriods: entities.lossPeriod.filter(isOf),
    campaigns: entities.campaign.filter(isOf),
    flights: entities.flight.filter(isOf),
    sorties: entities.sortie.filter(isOf),
    riskInputs: [],
    opening: [],
    farReadings: [],
  };
};
