/** What a plan's sorties carry, and the way they fly. Carried: of the first one ahead that flies by a profile, else of any, else a tonne down and two persons. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Mission } from "../entity/profile.ts";
import type { VehicleWay } from "./vehicle-way.ts";

export const usualMission = ({ sorties }: Pick<PlanSnapshot, "sorties">): Mission => {
  const flying = sorties
    .toSorted((a, b) => a.loadAt - b.loadAt)
    .flatMap(({ demand, status }) => (demand.kind === "profile" ? [{ demand, status }] : []));
  const like = flying.find(({ status }) => status === "planned") ?? flying[0];
  if (like === undefined) return { cargoDownKg: 1000, cargoUpKg: 0, crew: 2 };
  const { cargoDownKg, cargoUpKg, crew } = like.demand;
  return { cargoDownKg, cargoUpKg, crew };
};

/** The way that the plan itself flies, by its first sortie with a profile, which the others are set against; null: none does. */
export const flownWay = (
  { sorties }: Pick<PlanSnapshot, "sorties">,
  ways: readonly VehicleWay[],
): VehicleWay | null => {
  const flown = sorties.flatMap(({ demand }) => (demand.kind === "profile" ? [demand.profileId] : []))[0];
  return ways.find(({ profile }) => profile.id === flown) ?? null;
};
