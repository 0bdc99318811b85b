/** The engines of every lander through a plan case: what its sorties use of them, by the sheets of their profiles. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { type EngineLife, engineLife, type EngineUse } from "./life.ts";
import { sheetOfSortie } from "./plan-demand.ts";
import { engineBurns } from "./stage-sheet.ts";
import { stagesOf } from "./stage.ts";

export interface PlanLife {
  readonly lives: readonly EngineLife[];
  /** Sorties whose demand is not computed from a profile: what they use of the engines is not known. */
  readonly uncountedSortieIds: readonly string[];
}

/**
 * Counts every sortie that flew or is to fly. `departAt` gives another departure than the planned one (a sortie that
 * waits); null from it leaves the sortie out (it stands down). Throws as {@link sheetOfSortie} does.
 */
export const lifeOfPlan = (
  plan: Pick<PlanSnapshot, "craft" | "craftClasses" | "profiles" | "propellants" | "sorties">,
  departAt: (sortieId: string, plannedAt: number) => number | null = (_sortieId, plannedAt) => plannedAt,
): PlanLife => {
  const uses: EngineUse[] = [];
  const uncountedSortieIds: string[] = [];
  for (const sortie of plan.sorties) {
    if (sortie.status === "cancelled" || sortie.status === "stood down") continue;
    const at = sortie.status === "planned" ? departAt(sortie.id, sortie.loadAt) : sortie.loadAt;
    if (at === null) continue;
    const sheet = sheetOfSortie(plan, sortie);
    if (sheet === null) uncountedSortieIds.push(sortie.id);
    else
      for (const stage of sheet.stages)
        if (stage.engines.length > 0)
          uses.push({
            sortieId: sortie.id,
            landerId: sortie.landerId,
            stage: stage.name,
            at,
            burns: engineBurns(sheet.legs, stage.name),
            isSpent: stage.fate !== "comes home",
          });
  }
  const changes = plan.craft.flatMap(({ id, engineChanges }) =>
    engineChanges.map(({ at, engineNumbers, stage }) => ({
      landerId: id,
      stage: stage ?? null,
      at,
      engineNumbers: engineNumbers ?? null,
    })),
  );
  const lives = engineLife(uses, changes, (landerId, stage) => {
    const classId = plan.craft.find(({ id }) => id === landerId)?.classId;
    const lander = plan.craftClasses.find(({ id }) => id === classId)?.lander;
    const engines = lander && stagesOf(lander).find(({ name }) => name === stage)?.engines;
    return engines ?? { count: 1, ratedIgnitions: null, ratedBurnSeconds: null };
  });
  return { lives, uncountedSortieIds };
};
