/** What a ledger needs before its supply check says something true, in the order in which it is needed. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { EntityKind } from "../../app/entity/entities.ts";
import type { Sortie } from "../../app/entity/sortie.ts";

export interface SetupStep {
  /** What is added; null: nothing, the step is to look. */
  readonly kind: EntityKind | null;
  readonly words: string;
  readonly isDone: boolean;
}

type Role = "tanker" | "lander";

/** Whether the sortie takes something that its depot can hold. */
const isSupplied = (plan: PlanSnapshot, { landerId, depotId, demand }: Sortie): boolean => {
  const stored = new Set(
    plan.tanks
      .filter(({ ownerId, maximumFillKg }) => ownerId === depotId && maximumFillKg > 0)
      .map((row) => row.propellantId),
  );
  if (demand.kind === "profile") return stored.size > 0;
  const classId = plan.craft.find(({ id }) => id === landerId)?.classId;
  const lines =
    demand.kind === "class" ? (plan.craftClasses.find(({ id }) => id === classId)?.propellants ?? []) : demand.lines;
  return lines.some((line) => line.loadKg > 0 && stored.has(line.propellantId));
};

export const setupSteps = (plan: PlanSnapshot): readonly SetupStep[] => {
  const carrying = (role: Role) =>
    plan.craftClasses.filter(
      (row) => row.role === role && (row.propellants.some(({ loadKg }) => loadKg > 0) || row.lander !== null),
    );
  const hasCraft = (role: Role): boolean =>
    plan.craft.some(({ classId }) => plan.craftClasses.find(({ id }) => id === classId)?.role === role);
  const isTank = plan.tanks.some(({ maximumFillKg }) => maximumFillKg > 0);
  return [
    { kind: "propellant", words: "The propellants that are stored", isDone: plan.propellants.length > 0 },
    { kind: "depot", words: "A depot, with its orbit and ports", isDone: plan.depots.length > 0 },
    { kind: "source", words: "Where propellant comes from", isDone: plan.sources.length > 0 },
    { kind: "tank", words: "Its tanks, one propellant each, and what is in them", isDone: isTank },
    { kind: "lossPeriod", words: "What each tank loses", isDone: plan.lossPeriods.length > 0 },
    {
      kind: "craftClass",
      words: "A tanker class and a lander class, with what they carry",
      isDone: carrying("tanker").length > 0 && carrying("lander").length > 0,
    },
    { kind: "craft", words: "A tanker and a lander", isDone: hasCraft("tanker") && hasCraft("lander") },
    { kind: "campaign", words: "A campaign", isDone: plan.campaigns.length > 0 },
    { kind: "flight", words: "Flights that bring propellant", isDone: plan.flights.length > 0 },
    { kind: "sortie", words: "Sorties that use it", isDone: plan.sorties.length > 0 },
    {
      kind: null,
      words: "A sortie that takes what its depot stores: then the supply check answers",
      isDone: plan.sorties.some((sortie) => isSupplied(plan, sortie)),
    },
  ];
};

/** Whether the guide is no longer needed. */
export const isSetUp = (plan: PlanSnapshot): boolean => setupSteps(plan).every((step) => step.isDone);
