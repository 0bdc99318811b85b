/** What an empty ledger needs, in the order in which it is needed. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { EntityKind } from "../../app/entity/entities.ts";

export interface SetupStep {
  readonly kind: EntityKind;
  readonly words: string;
  readonly isDone: boolean;
}

export const setupSteps = (plan: PlanSnapshot): readonly SetupStep[] => {
  const hasClass = (role: "tanker" | "lander"): boolean => plan.craftClasses.some((row) => row.role === role);
  const hasCraft = (role: "tanker" | "lander"): boolean =>
    plan.craft.some(({ classId }) => plan.craftClasses.find(({ id }) => id === classId)?.role === role);
  return [
    { kind: "propellant", words: "The propellants that are stored", isDone: plan.propellants.length > 0 },
    { kind: "depot", words: "A depot, with its orbit and ports", isDone: plan.depots.length > 0 },
    { kind: "source", words: "Where propellant comes from", isDone: plan.sources.length > 0 },
    { kind: "tank", words: "Its tanks, one propellant each, and what is in them", isDone: plan.tanks.length > 0 },
    { kind: "lossPeriod", words: "What each tank loses", isDone: plan.lossPeriods.length > 0 },
    {
      kind: "craftClass",
      words: "A tanker class and a lander class",
      isDone: hasClass("tanker") && hasClass("lander"),
    },
    { kind: "craft", words: "A tanker and a lander", isDone: hasCraft("tanker") && hasCraft("lander") },
    { kind: "campaign", words: "A campaign", isDone: plan.campaigns.length > 0 },
    { kind: "flight", words: "Flights that bring propellant", isDone: plan.flights.length > 0 },
    { kind: "sortie", words: "Sorties that use it", isDone: plan.sorties.length > 0 },
  ];
};

/** Whether the guide is no longer needed. */
export const isSetUp = (plan: PlanSnapshot): boolean => setupSteps(plan).every((step) => step.isDone);
