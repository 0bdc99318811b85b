/** Engines due for a change, and sortie sheets with a check that fails. */
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { sheetOfSortie } from "../sortie/plan-demand.ts";
import { lifeOfPlan } from "../sortie/plan-life.ts";
import type { PlanFinding } from "./answer.ts";

/** The first sortie of each lander before which engines of it must be changed, with the sorties at their forecast dates. */
export const enginesDue = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const leaves = new Map(seen.sorties.map((row) => [row.sortieId, row.loadedAt]));
  const { lives } = lifeOfPlan(plan, (id, plannedAt) => (leaves.has(id) ? (leaves.get(id) ?? null) : plannedAt));
  return lives.flatMap(({ landerId, stage, dueBefore }) =>
    dueBefore === null
      ? []
      : [
          {
            kind: "engine change due" as const,
            landerId,
            stage,
            sortieId: dueBefore.sortieId,
            at: dueBefore.at,
            engineNumbers: dueBefore.dueNumbers,
            engines: dueBefore.engines.length,
            exceeds: dueBefore.exceeds,
          },
        ],
  );
};

/** What the sheets of the sorties ahead find. */
export const sheetFindings = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const isAhead = new Set(seen.sorties.filter((row) => !row.isOut).map((row) => row.sortieId));
  return plan.sorties
    .filter(({ id }) => isAhead.has(id))
    .flatMap((sortie) =>
      (sheetOfSortie(plan, sortie)?.findings ?? []).map((check) => ({
        kind: "sortie check" as const,
        sortieId: sortie.id,
        check,
      })),
    );
};
