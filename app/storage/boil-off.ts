/** Heat that reaches the liquid, turned into mass that boils and mass that is vented. */
import type { SaturationState } from "../fluid/saturation.ts";

const SECONDS_PER_DAY = 86_400;

/** kg boiled per day by `heatW` watts at a heat of vaporisation in kJ/kg. */
export const boiledKgPerDay = (heatW: number, vaporisationKJPerKg: number): number =>
  (heatW * SECONDS_PER_DAY) / (vaporisationKJPerKg * 1000);

/** Q_net = max(0, E·Q_in − P): a cooler that lifts more than comes in does not make liquid. W */
export const netHeatW = (environmentFactor: number, heatInW: number, liftW: number): number =>
  Math.max(0, environmentFactor * heatInW - liftW);

/**
 * Of what boils at constant pressure, the share that must leave the tank: the rest fills the emptied volume as vapour.
 * The ledger counts liquid, so a tank loses what boils; the vent carries away this share of it.
 */
export const ventedShare = (state: Pick<SaturationState, "liquidKgPerM3" | "vapourKgPerM3">): number =>
  1 - state.vapourKgPerM3 / state.liquidKgPerM3;
