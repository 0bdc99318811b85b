/** What it takes to cool a warm tank's wall before it can be filled. */
import { PlanningError } from "../ground/failure.ts";
import type { Fluid } from "../fluid/fluid.ts";
import { saturationAtPressure } from "../fluid/saturation.ts";

/** R, J/(mol·K), CODATA. */
const GAS_CONSTANT = 8.314_462_618;

/** Of the metals that tanks are made of, g/mol (standard atomic masses, CIAAW; steel as iron). */
export const wallMetals = { aluminium: 26.982, titanium: 47.867, steel: 55.845 } as const;
export type WallMetal = keyof typeof wallMetals;

export interface WarmWall {
  readonly massKg: number;
  readonly metal: WallMetal;
  /** Before the first liquid comes, K. */
  readonly temperatureK: number;
}

export interface TankChilldown {
  /** Given off by the wall, kJ, no less than it holds: the law of Dulong and Petit, 3R a mole, which cold metals stay below. */
  readonly heatKJ: number;
  /** Boiled if the vapour leaves as cold as it is made: the most. kg */
  readonly mostKg: number;
  /** Boiled if the vapour leaves as warm as the wall was, taking 5/2 R a mole (nothing taken by rotation): the least here. kg */
  readonly leastKg: number;
}

const molarMassG: { readonly [F in Fluid]: number } = { H2: 2.01588, O2: 31.9988, CH4: 16.0428 };

/**
 * Mass of propellant that boils to bring a wall to the boiling point at `pressureKPa`. Book the most unless a test says
 * less: it is the safe side for supply. A wall that is cold already costs nothing. Throws "invalid input" for a mass or a
 * temperature below 0.
 */
export const tankChilldown = (wall: WarmWall, fluid: Fluid, pressureKPa: number): TankChilldown => {
  if (!(wall.massKg >= 0)) throw new PlanningError("invalid input", "A wall's mass cannot be below 0 kg.", "massKg");
  if (!(wall.temperatureK > 0))
    throw new PlanningError("invalid input", "A wall's temperature must be above 0 K.", "temperatureK");
  const { temperatureK, vaporisationKJPerKg } = saturationAtPressure(fluid, pressureKPa);
  const above = Math.max(0, wall.temperatureK - temperatureK);
  const heatKJ = (wall.massKg * above * 3 * GAS_CONSTANT) / wallMetals[wall.metal];
  const sensibleKJPerKg = (2.5 * GAS_CONSTANT * above) / molarMassG[fluid];
  return {
    heatKJ,
    mostKg: heatKJ / vaporisationKJPerKg,
    leastKg: heatKJ / (vaporisationKJPerKg + sensibleKJPerKg),
  };
};
