/** Which part of a loss rate a fit is after, unless the planner says. */
import { type LossRate, NO_LOSS, periodInForce, rateOf } from "../../storage/loss-rate.ts";
import type { LossPeriod } from "../../entity/loss-period.ts";
import type { FittedPart } from "./observations.ts";

/** The share, k; the steady loss, c, where the rate has nothing else (a heat balance does not depend on the level). */
export const usualPart = ({ kPerDay, cKgPerDay }: LossRate): FittedPart => (kPerDay === 0 && cKgPerDay > 0 ? "c" : "k");

/** By the tank's rate in force just before an instant. */
export const usualPartAt = (periods: readonly LossPeriod[], tankId: string, at: number): FittedPart => {
  const period = periodInForce(
    periods.filter((each) => each.tankId === tankId),
    at - 1,
  );
  return usualPart(period === null ? NO_LOSS : rateOf(period.basis));
};
