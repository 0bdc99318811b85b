/** Known pairs of reflector and spacer for multilayer insulation. */
import type { InsulationMaterial } from "../entity/heat-balance.ts";

/**
 * The one pair of which the coefficients were at hand, as quoted by a later text; a planner may enter another with its
 * own source.
 */
export const doubleAluminisedMylarSilkNet: InsulationMaterial = {
  name: "double-aluminised Mylar, silk net",
  solidCoefficient: 8.95e-8,
  densityExponent: 2.56,
  radiationCoefficient: 5.39e-10,
  emittance: 0.031,
  gasCoefficient: 1.46e4,
  source:
    "Keller, Cunnington, Glassford, NASA CR-134477 (1974), quoted as its equation 4-14; fitted to hot sides of about 300 K",
};

export const insulationMaterials: readonly InsulationMaterial[] = [doubleAluminisedMylarSilkNet];

/**
 * How much more an installed blanket leaks than a bare one, unless the planner knows better. An 18 m³ hydrogen
 * test tank measured 1.2 times what the correlation gives (quoted from NASA TM-2001-211089), but its blanket had Dacron net
 * and the correlation is for silk net: an order, no check of it. That installed blankets leak up to 4 times as much is from
 * memory, without a source at hand.
 */
export const DEFAULT_DEGRADATION_FACTOR = 2;
