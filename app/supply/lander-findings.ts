/** Sorties of one lander that overlap, loads that its tanks cannot hold, and what they do not ask for but take along. */
import { carriage } from "../forecast/compile-tanks.ts";
import { sortieNeeds } from "../forecast/compile-sorties.ts";
import { byId } from "../forecast/draft.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { PlanFinding } from "./answer.ts";

/** Two sorties of one lander overlap as planned, or because the earlier one waited. */
export const landerOverlaps = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const expected = new Map(seen.sorties.map((row) => [row.sortieId, row]));
  const flying = plan.sorties
    .filter((sortie) => expected.has(sortie.id))
    .toSorted((a, b) => a.loadAt - b.loadAt || (a.id < b.id ? -1 : 1));
  const found: PlanFinding[] = [];
  for (const [landerId, own] of Map.groupBy(flying, (sortie) => sortie.landerId))
    own.forEach((later, index) => {
      const isHeldUp = expected.get(later.id)?.landerIsAway === true;
      const earlier = own.slice(0, index).findLast((sortie) => {
        const row = expected.get(sortie.id);
        const backAt = Math.max(sortie.returnAt, isHeldUp ? (row?.returnAt ?? Infinity) : 0);
        const isGone = row?.loadedAt !== null || row.isOut;
        return sortie.returnAt > later.loadAt || (isHeldUp && isGone && backAt > later.loadAt);
      });
      if (earlier !== undefined) found.push({ kind: "lander overlap", landerId, sortieIds: [earlier.id, later.id] });
    });
  return found;
};

/** Less than this more than needed is rounding of what was written down. kg */
const LEAST_SURPLUS_KG = 0.5;

/** Sorties that leave, or left, with more aboard than they need. */
export const surplusAboard = (seen: Forecast): readonly PlanFinding[] =>
  seen.sorties.flatMap(({ sortieId, lines }): readonly PlanFinding[] => {
    const surplus = lines.flatMap(({ propellantId, surplusKg }) =>
      surplusKg < LEAST_SURPLUS_KG ? [] : [{ propellantId, massKg: surplusKg }],
    );
    return surplus.length === 0 ? [] : [{ kind: "surplus aboard", sortieId, surplus }];
  });

/** A load is more than the lander's tank may hold. */
export const landerLimits = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const classes = byId(plan.craftClasses);
  const craft = byId(plan.craft);
  const capacities = new Map<string, number>();
  for (const tank of plan.tanks) {
    if (tank.ownerKind !== "craft") continue;
    const key = JSON.stringify([tank.ownerId, tank.propellantId]);
    capacities.set(key, (capacities.get(key) ?? 0) + tank.maximumFillKg);
  }
  const isAhead = new Set(seen.sorties.filter((row) => !row.isOut).map((row) => row.sortieId));
  return plan.sorties
    .filter((sortie) => isAhead.has(sortie.id))
    .flatMap((sortie) =>
      sortieNeeds(plan, sortie).flatMap(({ propellantId, loadKg }): readonly PlanFinding[] => {
        const capacityKg =
          capacities.get(JSON.stringify([sortie.landerId, propellantId])) ??
          carriage(classes, craft.get(sortie.landerId), propellantId)?.capacityKg ??
          0;
        return loadKg <= capacityKg
          ? []
          : [{ kind: "lander cannot hold", sortieId: sortie.id, propellantId, capacityKg, loadKg }];
      }),
    );
};
