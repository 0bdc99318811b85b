/** One plan case in a row of figures, to be laid beside others: how the sorties stand, what it takes, what it loses. */
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { isAhead } from "../forecast/compile-flights.ts";
import { sumsOf } from "./cures/outlook.ts";
import type { SupplyGlance, SupplyStatus, Verdict } from "./answer.ts";

export interface CaseFigures {
  readonly planCaseId: string;
  readonly name: string;
  readonly verdict: Verdict["word"];
  readonly counts: Readonly<Record<SupplyStatus, number>>;
  /** The least margin over the reserve relative to what is required; null: no sortie states a need. */
  readonly worst: {
    readonly sortieKey: string;
    readonly sortieName: string;
    readonly propellantId: string;
    readonly marginPercent: number;
    readonly marginKg: number;
  } | null;
  /** Flights ahead. */
  readonly flights: number;
  /** To the horizon of the case, all propellants, kg. */
  readonly deliveredKg: number;
  readonly boiledOffKg: number;
  /** Planned loading of the first sortie that is short; null: none is. */
  readonly firstShortAt: number | null;
  readonly horizonAt: number;
}

/** The figures of a case from its forecast and statuses. Pure. */
export const caseFigures = (plan: PlanSnapshot, seen: Forecast, supply: SupplyGlance): CaseFigures => {
  const counts = { supplied: 0, thin: 0, short: 0, "not stated": 0 };
  for (const { status } of supply.sorties) counts[status] += 1;
  const lines = supply.sorties.flatMap((sortie) => sortie.lines.map((line) => ({ sortie, line })));
  const [least] = lines.toSorted((a, b) => a.line.marginPercent - b.line.marginPercent);
  const short = supply.sorties.filter(({ status }) => status === "short").map(({ plannedAt }) => plannedAt);
  return {
    planCaseId: plan.planCase.id,
    name: plan.planCase.name,
    verdict: supply.verdict.word,
    counts,
    worst:
      least === undefined
        ? null
        : {
            sortieKey: least.sortie.sortieKey,
            sortieName: least.sortie.name,
            propellantId: least.line.propellantId,
            marginPercent: least.line.marginPercent,
            marginKg: least.line.marginOverReserveKg,
          },
    flights: plan.flights.filter(isAhead).length,
    deliveredKg: sumsOf(seen).deliveredKg,
    boiledOffKg: seen.losses.reduce((sum, { lostKg }) => sum + lostKg, 0),
    firstShortAt: short.length === 0 ? null : Math.min(...short),
    horizonAt: plan.horizonAt,
  };
};
