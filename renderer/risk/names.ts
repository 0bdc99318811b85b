/** What the things of a plan are called, by id. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";

/** The name of a flight, sortie, tank, craft class, depot or propellant; an unknown id stands for itself. */
export const namesOf = (plan: PlanSnapshot): ((id: string) => string) => {
  const names = new Map<string, string>();
  for (const rows of [
    plan.propellants,
    plan.depots,
    plan.craftClasses,
    plan.craft,
    plan.tanks,
    plan.sorties,
    plan.flights,
  ])
    for (const { id, name } of rows) names.set(id, name);
  return (id) => names.get(id) ?? id;
};
