/** Turns a tank's heat balance with cooler outages and environment seasons into loss periods, one a stretch. */
import type { HeatBalance } from "../entity/heat-balance.ts";
import type { LossPeriod } from "../entity/loss-period.ts";
import { PlanningError } from "../ground/failure.ts";

/** Something that holds from an instant (inclusive) to another (exclusive), planned or recorded. */
export type HeatSeason = { readonly fromAt: number; readonly untilAt: number; readonly reason: string } & (
  | {
      readonly kind: "cooler outage";
      /** Which cooler stands still, by its place in the list; null: all of them. */
      readonly cooler: number | null;
    }
  | { readonly kind: "environment"; readonly factor: number }
);

/** The balance during some seasons: environment factors multiply, a cooler that is out stands still. */
export const balanceDuring = (base: HeatBalance, seasons: readonly HeatSeason[]): HeatBalance => ({
  ...base,
  environmentFactor: seasons.reduce(
    (factor, season) => (season.kind === "environment" ? factor * season.factor : factor),
    base.environmentFactor,
  ),
  coolers: base.coolers.map((cooler, index) => ({
    ...cooler,
    isRunning:
      cooler.isRunning &&
      !seasons.some((season) => season.kind === "cooler outage" && (season.cooler ?? index) === index),
  })),
});

/**
 * Loss periods for every stretch in which a season holds, to be laid over the period of the base balance: between two
 * edges the rate is constant. Where seasons overlap they count together. Ids are `${idStem}-1`, `-2`, … in order of time.
 * Throws "invalid input" for a season that ends before it begins.
 */
export const seasonPeriods = (
  base: HeatBalance,
  seasons: readonly HeatSeason[],
  of: Pick<LossPeriod, "tankId" | "planCaseId"> & { readonly idStem: string },
): readonly LossPeriod[] => {
  for (const [index, season] of seasons.entries()) {
    if (!(season.untilAt > season.fromAt)) {
      throw new PlanningError("invalid input", `"${season.reason}" ends before it begins.`, `seasons.${index}.untilAt`);
    }
  }
  const edges = [...new Set(seasons.flatMap((season) => [season.fromAt, season.untilAt]))].sort((a, b) => a - b);
  const periods: LossPeriod[] = [];
  for (const [index, fromAt] of edges.entries()) {
    const untilAt = edges[index + 1];
    if (untilAt === undefined) break;
    const holding = seasons.filter((season) => season.fromAt <= fromAt && season.untilAt >= untilAt);
    if (holding.length === 0) continue;
    periods.push({
      id: `${of.idStem}-${periods.length + 1}`,
      tankId: of.tankId,
      planCaseId: of.planCaseId,
      fromAt,
      untilAt,
      basis: balanceDuring(base, holding),
      reason: [...new Set(holding.map((season) => season.reason))].join(", ").slice(0, 120),
      note: "",
    });
  }
  return periods;
};
