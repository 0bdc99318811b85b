/** What a top-up loses before anything stays in the tank: to cool the line, and the tank's wall where it is warm. */
import type { CraftPropellant } from "../entity/craft.ts";
import type { Fluid } from "../fluid/fluid.ts";
import { STANDARD_PRESSURE_KPA } from "../fluid/saturation.ts";
import { tankChilldown } from "./tank-chilldown.ts";

/** Of walls already computed: a plan is compiled many times over, its walls stay. */
const known = new WeakMap<NonNullable<CraftPropellant["wall"]>, { readonly fluid: Fluid; readonly kg: number }>();

/**
 * kg that boil to bring the stated wall to the boiling point at 101.325 kPa, at the most; 0: no wall is stated, or there is
 * no property table of what it holds.
 */
export const wallChilldownKg = ({ wall }: Pick<CraftPropellant, "wall">, fluid: Fluid | null): number => {
  if (wall === undefined || fluid === null) return 0;
  const before = known.get(wall);
  if (before?.fluid === fluid) return before.kg;
  const kg = tankChilldown(wall, fluid, STANDARD_PRESSURE_KPA).mostKg;
  known.set(wall, { fluid, kg });
  return kg;
};

/** kg lost at each top-up of a lander: the line's, and the wall's. */
export const topUpChilldownKg = (line: Pick<CraftPropellant, "chilldownKg" | "wall">, fluid: Fluid | null): number =>
  line.chilldownKg + wallChilldownKg(line, fluid);
