/** What a plan's sorties carry: of the first one ahead that flies by a profile, else of any, else a tonne down and two persons. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Mission } from "../entity/profile.ts";

export const usualMission = ({ sorties }: Pick<PlanSnapshot, "sorties">): Mission => {
  const flying = sorties
    .toSorted((a, b) => a.loadAt - b.loadAt)
    .flatMap(({ demand, status }) => (demand.kind === "profile" ? [{ demand, status }] : []));
  const like = flying.find(({ status }) => status === "planned") ?? flying[0];
  if (like === undefined) return { cargoDownKg: 1000, cargoUpKg: 0, crew: 2 };
  const { cargoDownKg, cargoUpKg, crew } = like.demand;
  return { cargoDownKg, cargoUpKg, crew };
};
