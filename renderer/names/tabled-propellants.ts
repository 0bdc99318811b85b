/** The propellants that the property tables describe, as a ledger would hold them. */
import type { Propellant } from "../../app/entity/propellant.ts";
import type { Fluid } from "../../app/fluid/fluid.ts";
import { STANDARD_PRESSURE_KPA, saturationAtPressure } from "../../app/fluid/saturation.ts";

export type PropellantSort = Pick<Propellant, "name" | "symbol" | "fluid" | "densityKgPerM3">;

/** Density of the saturated liquid at standard pressure, kg/m³, to the gram. */
export const tabledDensity = (fluid: Fluid): number =>
  Number(saturationAtPressure(fluid, STANDARD_PRESSURE_KPA).liquidKgPerM3.toFixed(3));

/** Where the density of a propellant from the tables comes from, beside its field. */
export const DENSITY_ORIGIN = `saturated liquid at ${STANDARD_PRESSURE_KPA}\u202fkPa, by the property table`;

const sort = (fluid: Fluid, name: string, symbol: string): PropellantSort & { readonly fluid: Fluid } => ({
  name,
  symbol,
  fluid,
  densityKgPerM3: tabledDensity(fluid),
});

export const tabledPropellants = [
  sort("H2", "Hydrogen", "LH2"),
  sort("O2", "Oxygen", "LOX"),
  sort("CH4", "Methane", "LCH4"),
] as const;
