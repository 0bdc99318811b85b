/** What is asked of a plant: its loads as flights of a tanker, or a direct line into a depot; and the changes that make it so. */
import { PlanningError } from "../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Change, Entity } from "../../app/entity/entities.ts";
import { flightsFromPlant, inflowFromPlant } from "../../app/plant/plant-plan.ts";

export type PlantDelivery = "flights" | "line";

export interface PlantRequest {
  readonly source: Entity<"source">;
  readonly delivery: PlantDelivery;
  /** null: no tanker of the plan carries both hydrogen and oxygen. */
  readonly craftId: string | null;
  readonly depotId: string;
}

/** Tankers whose class has a usual load of both hydrogen and oxygen; a plant's own line is none. */
export const pairTankers = (plan: PlanSnapshot): readonly Entity<"craft">[] => {
  const idsOf = (fluid: "H2" | "O2"): ReadonlySet<string> =>
    new Set(plan.propellants.filter((row) => row.fluid === fluid).map(({ id }) => id));
  const [hydrogen, oxygen] = [idsOf("H2"), idsOf("O2")];
  const able = new Set(
    plan.craftClasses
      .filter(
        ({ role, propellants }) =>
          role === "tanker" &&
          [hydrogen, oxygen].every((ids) =>
            propellants.some(({ propellantId, loadKg }) => ids.has(propellantId) && loadKg > 0),
          ),
      )
      .map(({ id }) => id),
  );
  return plan.craft.filter(({ classId }) => able.has(classId));
};

/** The changes, or why there are none in words. */
export const plantChanges = (plan: PlanSnapshot, request: PlantRequest): readonly Change[] | string => {
  try {
    if (request.delivery === "line") return inflowFromPlant(plan, request.source, request.depotId);
    if (request.craftId === null) return "No tanker of this plan carries both hydrogen and oxygen: add one first.";
    const flights = flightsFromPlant(plan, { ...request, craftId: request.craftId });
    if (flights.length === 0) return "No full load is ready in time to arrive before the end of the plan.";
    return flights.map((value): Change => ({ op: "put", kind: "flight", value }));
  } catch (error) {
    if (error instanceof PlanningError) return error.message;
    throw error;
  }
};
