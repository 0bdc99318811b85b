/** Names of things by id, for sentences and tables. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { nameIn } from "../words/named.ts";

export const propellantName = (plan: PlanSnapshot, id: string): string => nameIn(plan.propellants, id);
export const depotName = (plan: PlanSnapshot, id: string): string => nameIn(plan.depots, id);
export const flightName = (plan: PlanSnapshot, id: string): string => nameIn(plan.flights, id);
export const tankName = (plan: PlanSnapshot, id: string): string => nameIn(plan.tanks, id);
