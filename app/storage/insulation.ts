/** Heat flux through multilayer insulation by the layer-by-layer correlation of Keller, Cunnington and Glassford. */
import { PlanningError } from "../ground/failure.ts";
import type { InsulationMaterial } from "../entity/heat-balance.ts";

export interface Blanket {
  readonly material: InsulationMaterial;
  /** N, a whole number from 1. */
  readonly layers: number;
  /** n, layers per centimetre. */
  readonly layersPerCm: number;
  readonly hotK: number;
  readonly coldK: number;
  /** p, torr. */
  readonly residualGasTorr: number;
}

/** W/m² through a bare blanket, by way. */
export interface BlanketFlux {
  readonly solid: number;
  readonly radiation: number;
  readonly gas: number;
  readonly total: number;
}

/** The correlation was fitted on hot sides up to about room temperature. */
export const FITTED_TO_HOT_K = 310;

/** Below such cold sides the correlation was not tested (handed down with the coefficients, without a source at hand). */
export const TESTED_FROM_COLD_K = 70;

const refuse = (message: string, field: string): never => {
  throw new PlanningError("invalid input", message, field);
};

/**
 * q = C_s·n^2.56·(T_h+T_c)/2·(T_h−T_c)/(N+1) + C_r·ε·(T_h^4.67−T_c^4.67)/N + C_g·p·(T_h^0.52−T_c^0.52)/N in W/m², with n in
 * layers per cm and p in torr (NASA CR-134477, quoted as equation 4-14). Throws "invalid input" where a blanket is not one.
 */
export const blanketFlux = (blanket: Blanket): BlanketFlux => {
  const { material, layers, layersPerCm, hotK, coldK, residualGasTorr } = blanket;
  if (!(Number.isInteger(layers) && layers >= 1))
    refuse("A blanket has one layer or more, in whole numbers.", "layers");
  if (!(layersPerCm > 0)) refuse("The layer density must be above 0 layers per cm.", "layersPerCm");
  if (!(coldK > 0)) refuse("The cold side must be above 0 K.", "coldK");
  if (!(hotK >= coldK)) refuse(`The hot side (${hotK} K) is colder than the cold side (${coldK} K).`, "hotK");
  if (!(residualGasTorr >= 0)) refuse("The residual gas pressure cannot be below 0 torr.", "residualGasTorr");
  const solid =
    (((material.solidCoefficient * layersPerCm ** material.densityExponent * (hotK + coldK)) / 2) * (hotK - coldK)) /
    (layers + 1);
  const radiation = (material.radiationCoefficient * material.emittance * (hotK ** 4.67 - coldK ** 4.67)) / layers;
  const gas = (material.gasCoefficient * residualGasTorr * (hotK ** 0.52 - coldK ** 0.52)) / layers;
  return { solid, radiation, gas, total: solid + radiation + gas };
};
