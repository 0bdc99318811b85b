/** A fit taken into the plan: a loss period from a date, with the fit attached. */
import { PlanningError } from "../../ground/failure.ts";
import type { MeasuredRate } from "../../entity/measured-rate.ts";
import type { LossPeriod } from "../../entity/loss-period.ts";
import type { FitResult } from "./fit-result.ts";

export interface Adoption {
  readonly id: string;
  readonly tankId: string;
  /** null: holds for every plan case. */
  readonly planCaseId: string | null;
  readonly fromAt: number;
  /** "measured in March" … */
  readonly reason: string;
}

/** The fit as the basis of a loss period. Throws "refused" if the fit says that it may not be adopted. */
export const measuredRateOf = (fit: FitResult): MeasuredRate => {
  if (fit.cannotAdoptBecause !== null) throw new PlanningError("refused", fit.cannotAdoptBecause, "fit");
  return {
    kind: "measured",
    kPerDay: fit.kPerDay,
    cKgPerDay: fit.cKgPerDay,
    fitted: fit.fitted,
    kInterval: fit.kInterval,
    cInterval: fit.cInterval,
    readings: fit.readings.length,
    flagged: fit.flagged,
    reducedChiSquare: fit.reducedChiSquare,
    firstAt: fit.firstAt,
    lastAt: fit.lastAt,
  };
};

/** From `fromAt` on, until a later period takes over. */
export const adoptFit = (fit: FitResult, adoption: Adoption): LossPeriod => ({
  id: adoption.id,
  tankId: adoption.tankId,
  planCaseId: adoption.planCaseId,
  fromAt: adoption.fromAt,
  untilAt: null,
  basis: measuredRateOf(fit),
  reason: adoption.reason,
  note: "",
});
