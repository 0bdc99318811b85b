/** What a tank of a plan loses at an instant, and why: the period in force, its rate in every unit, the heat budget behind it. */
import { type LossRate, NO_LOSS, periodInForce, rateOf } from "./loss-rate.ts";
import type { LossPeriod } from "../entity/loss-period.ts";
import type { Tank } from "../entity/tank.ts";
import { type Fluid } from "../fluid/fluid.ts";
import { type RateInUnits, rateInUnits } from "./rate-units.ts";
import { saturationAtPressure, STANDARD_PRESSURE_KPA } from "../fluid/saturation.ts";
import { type StorageSheet, storageSheet } from "./storage-sheet.ts";

export interface TankStorage {
  readonly tankId: string;
  readonly at: number;
  readonly levelKg: number;
  /** null: no period is in force; then nothing is lost. */
  readonly period: LossPeriod | null;
  readonly loss: LossRate;
  /** Heat by the period's heat balance, or at 101.325 kPa for a cryogen of which none is described. */
  readonly rate: RateInUnits;
  /** null: the rate does not rest on a heat balance. */
  readonly sheet: StorageSheet | null;
}

/** `fluid`: of the tank's propellant, null for one that does not boil. `reliefKPa`: null leaves the hold time out. */
export const tankStorage = (
  tank: Pick<Tank, "id" | "volumeM3">,
  fluid: Fluid | null,
  periods: readonly LossPeriod[],
  levelKg: number,
  at: number,
  reliefKPa: number | null,
): TankStorage => {
  const period = periodInForce(
    periods.filter(({ tankId }) => tankId === tank.id),
    at,
  );
  const loss = period === null ? NO_LOSS : rateOf(period.basis);
  const sheet =
    period?.basis.kind === "heat balance"
      ? storageSheet(period.basis, { levelKg, volumeM3: tank.volumeM3, reliefKPa })
      : null;
  const heat =
    sheet?.budget.state.vaporisationKJPerKg ??
    (fluid === null ? null : saturationAtPressure(fluid, STANDARD_PRESSURE_KPA).vaporisationKJPerKg);
  return { tankId: tank.id, at, levelKg, period, loss, rate: rateInUnits(loss, levelKg, heat), sheet };
};
