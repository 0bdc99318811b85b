/** Loads that are twenty times more or less than their class usually takes: typed wrongly, more often than meant. */
import { byId } from "../forecast/draft.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { PlanFinding } from "./answer.ts";

/** A slipped decimal sign or a tonne for a kilogram is further off than this; no wish of a planner is. */
const TIMES = 20;

export const unusualLoads = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const classes = byId(plan.craftClasses);
  const craft = byId(plan.craft);
  const usualOf = (craftId: string, propellantId: string): number =>
    classes.get(craft.get(craftId)?.classId ?? "")?.propellants.find((line) => line.propellantId === propellantId)
      ?.loadKg ?? 0;
  const among = (
    of: "flight" | "sortie",
    id: string,
    craftId: string,
    loads: readonly { readonly propellantId: string; readonly massKg: number }[],
  ): readonly PlanFinding[] =>
    loads.flatMap(({ propellantId, massKg }): readonly PlanFinding[] => {
      const usualKg = usualOf(craftId, propellantId);
      const isUsual = massKg < usualKg * TIMES && massKg > usualKg / TIMES;
      return massKg <= 0 || usualKg <= 0 || isUsual
        ? []
        : [{ kind: "unusual load", of, id, propellantId, massKg, usualKg }];
    });
  const flying = new Set(seen.flights.map(({ flightId }) => flightId));
  const ahead = new Set(seen.sorties.filter(({ isOut }) => !isOut).map(({ sortieId }) => sortieId));
  return [
    ...plan.flights
      .filter(({ id }) => flying.has(id))
      .flatMap(({ id, craftId, loads }) =>
        among(
          "flight",
          id,
          craftId,
          loads.map(({ propellantId, loadedKg }) => ({ propellantId, massKg: loadedKg })),
        ),
      ),
    ...plan.sorties.flatMap(({ id, landerId, demand }) =>
      ahead.has(id) && demand.kind === "stated"
        ? among(
            "sortie",
            id,
            landerId,
            demand.lines.map(({ propellantId, loadKg }) => ({ propellantId, massKg: loadKg })),
          )
        : [],
    ),
  ];
};
