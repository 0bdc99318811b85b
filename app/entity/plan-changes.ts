/** A plan case with changes laid over it, for what is shown or supposed before it is written: a drag, an edit under way, a what-if. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Change, EntityKind } from "../entity/entities.ts";

/** The list of the snapshot that holds a kind of entity. */
const listOf = {
  propellant: "propellants",
  depot: "depots",
  source: "sources",
  craftClass: "craftClasses",
  profile: "profiles",
  craft: "craft",
  tank: "tanks",
  lossPeriod: "lossPeriods",
  campaign: "campaigns",
  flight: "flights",
  sortie: "sorties",
  riskInput: "riskInputs",
} as const satisfies Record<Exclude<EntityKind, "planCase">, keyof PlanSnapshot>;

interface Identified {
  readonly id: string;
}

const put = (rows: readonly Identified[], value: Identified): readonly Identified[] =>
  rows.some((row) => row.id === value.id) ? rows.map((row) => (row.id === value.id ? value : row)) : [...rows, value];

/** Does not touch the plan given. Rows of another plan case are left out. */
export const applyChanges = (plan: PlanSnapshot, changes: readonly Change[]): PlanSnapshot => {
  let result = plan;
  for (const change of changes) {
    if (change.kind === "planCase") {
      if (change.op === "put" && change.value.id === plan.planCase.id)
        result = { ...result, planCase: change.value, horizonAt: change.value.horizonAt };
      continue;
    }
    if (change.op === "put" && "planCaseId" in change.value) {
      const owner = change.value.planCaseId;
      if (owner !== null && owner !== plan.planCase.id) continue;
    }
    const list = listOf[change.kind];
    const rows: readonly Identified[] = result[list];
    const changed = change.op === "put" ? put(rows, change.value) : rows.filter((row) => row.id !== change.id);
    result = { ...result, [list]: changed };
  }
  return result;
};
