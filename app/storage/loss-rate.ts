/** From a tank's loss periods to a loss rate that is constant between instants. */
import { missingCase } from "../ground/missing-case.ts";
import type { LossBasis, LossPeriod } from "../entity/loss-period.ts";
import { heatBalanceRate } from "../storage/heat-balance-rate.ts";

/** dm/dt = −(k·m + c). */
export interface LossRate {
  readonly kPerDay: number;
  readonly cKgPerDay: number;
}

/** The rate in force from `fromAt` to `untilAt`, and the period that says so; null: no period, the rate is the fallback. */
export interface RatePiece extends LossRate {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly period: LossPeriod | null;
}

export const NO_LOSS: LossRate = { kPerDay: 0, cKgPerDay: 0 };

/** k [1/day] and c [kg/day] of a basis. Each kind of basis has its branch here. */
export const rateOf = (basis: LossBasis): LossRate => {
  switch (basis.kind) {
    case "stated":
      return { kPerDay: basis.kPerDay, cKgPerDay: basis.cKgPerDay };
    case "heat balance":
      return heatBalanceRate(basis);
    case "measured":
      return { kPerDay: basis.kPerDay, cKgPerDay: basis.cKgPerDay };
    default:
      return missingCase(basis);
  }
};

/** Whether a is in force before b where both hold: it began later; then the plan case's own; then the greater id. */
const outranks = (a: LossPeriod, b: LossPeriod): boolean => {
  const from = (a.fromAt ?? -Infinity) - (b.fromAt ?? -Infinity);
  if (from > 0 || from < 0) return from > 0;
  if ((a.planCaseId === null) !== (b.planCaseId === null)) return b.planCaseId === null;
  return a.id > b.id;
};

/** The period that holds at an instant (from inclusive, until exclusive) among those of one tank; null: none. */
export const periodInForce = (periods: readonly LossPeriod[], at: number): LossPeriod | null => {
  let best: LossPeriod | null = null;
  for (const period of periods) {
    const holds = (period.fromAt ?? -Infinity) <= at && at < (period.untilAt ?? Infinity);
    if (holds && (best === null || outranks(period, best))) best = period;
  }
  return best;
};

/**
 * The periods of one tank cut into pieces of constant rate that cover [fromAt, untilAt) without gap or overlap.
 * Where no period holds, `fallback` does.
 */
export const ratePieces = (
  periods: readonly LossPeriod[],
  fromAt: number,
  untilAt: number,
  fallback: LossRate = NO_LOSS,
): readonly RatePiece[] => {
  const edges = new Set([fromAt]);
  for (const period of periods)
    for (const edge of [period.fromAt, period.untilAt])
      if (edge !== null && fromAt < edge && edge < untilAt) edges.add(edge);
  const starts = [...edges].sort((a, b) => a - b);
  const pieces: RatePiece[] = [];
  starts.forEach((start, index) => {
    const end = starts[index + 1] ?? untilAt;
    const period = periodInForce(periods, start);
    const before = pieces.at(-1);
    if (before !== undefined && before.period === period) pieces[pieces.length - 1] = { ...before, untilAt: end };
    else pieces.push({ ...(period === null ? fallback : rateOf(period.basis)), fromAt: start, untilAt: end, period });
  });
  return pieces;
};
