/** Names of things by id, for sentences and tables. */
import type { PlanSnapshot } from "../entity/plan.ts";

type Named = { readonly id: string; readonly name: string };

const nameIn = (list: readonly Named[], id: string): string => list.find((each) => each.id === id)?.name ?? id;

export const propellantName = (plan: PlanSnapshot, id: string): string => nameIn(plan.propellants, id);
export const depotName = (plan: PlanSnapshot, id: string): string => nameIn(plan.depots, id);
export const flightName = (plan: PlanSnapshot, id: string): string => nameIn(plan.flights, id);
export const tankName = (plan: PlanSnapshot, id: string): string => nameIn(plan.tanks, id);
