/** Properties of a cryogen on its saturation line, by pressure. */
import { PlanningError } from "../ground/failure.ts";
import { type CubicSpline, cubicSpline } from "./cubic-spline.ts";
import { type Fluid, fluidName } from "./fluid.ts";
import { type SaturationRow, saturationRows } from "./saturation-data.ts";

/** A state of liquid and vapour in balance. */
export interface SaturationState {
  readonly pressureKPa: number;
  readonly temperatureK: number;
  readonly liquidKgPerM3: number;
  readonly vapourKgPerM3: number;
  /** Heat of vaporisation, kJ/kg. */
  readonly vaporisationKJPerKg: number;
  /** Inner energies, relative to saturated liquid at 101.325 kPa, kJ/kg. */
  readonly liquidEnergyKJPerKg: number;
  readonly vapourEnergyKJPerKg: number;
}

/** The pressures that the tables cover, kPa. */
export const LOWEST_PRESSURE_KPA = 20;
export const HIGHEST_PRESSURE_KPA = 800;

/** Standard atmosphere, kPa: the pressure at which a tank is described unless something else is said. */
export const STANDARD_PRESSURE_KPA = 101.325;

export interface SaturationLine {
  atPressure(pressureKPa: number): SaturationState;
}

/**
 * Splines over ln p. The vapour density is interpolated as its logarithm, being nearly a power of the pressure.
 * Interpolation adds at most 1e-4 of temperature, densities and heat of vaporisation, and 0.01 kJ/kg of inner energy.
 * Takes any rising choice of rows, so that a test can leave some out.
 */
export const saturationLine = (rows: readonly SaturationRow[]): SaturationLine => {
  const logPressure = rows.map(([p]) => Math.log(p));
  const over = (value: (row: SaturationRow) => number): CubicSpline => cubicSpline(logPressure, rows.map(value));
  const temperature = over((row) => row[1]);
  const liquid = over((row) => row[2]);
  const logVapour = over((row) => Math.log(row[3]));
  const vaporisation = over((row) => row[4]);
  const liquidEnergy = over((row) => row[5]);
  const vapourEnergy = over((row) => row[6]);
  return {
    atPressure: (pressureKPa) => {
      const x = Math.log(pressureKPa);
      return {
        pressureKPa,
        temperatureK: temperature.at(x),
        liquidKgPerM3: liquid.at(x),
        vapourKgPerM3: Math.exp(logVapour.at(x)),
        vaporisationKJPerKg: vaporisation.at(x),
        liquidEnergyKJPerKg: liquidEnergy.at(x),
        vapourEnergyKJPerKg: vapourEnergy.at(x),
      };
    },
  };
};

const lines: { readonly [F in Fluid]: SaturationLine } = {
  H2: saturationLine(saturationRows.H2),
  O2: saturationLine(saturationRows.O2),
  CH4: saturationLine(saturationRows.CH4),
};

/** The saturated state at a pressure, 20 to 800 kPa. Throws "invalid input" outside. */
export const saturationAtPressure = (fluid: Fluid, pressureKPa: number): SaturationState => {
  if (!(pressureKPa >= LOWEST_PRESSURE_KPA && pressureKPa <= HIGHEST_PRESSURE_KPA)) {
    throw new PlanningError(
      "invalid input",
      `The tables of ${fluidName[fluid]} reach from ${LOWEST_PRESSURE_KPA} to ${HIGHEST_PRESSURE_KPA} kPa; ${pressureKPa} kPa lies outside.`,
      "pressureKPa",
    );
  }
  return lines[fluid].atPressure(pressureKPa);
};

/**
 * The pressure at which a property that only rises or only falls along the line takes a value, kPa, by halving ln p to
 * the last digit; null if it is not reached within the tables.
 */
const pressureWhere = (fluid: Fluid, property: (state: SaturationState) => number, value: number): number | null => {
  let low = Math.log(LOWEST_PRESSURE_KPA);
  let high = Math.log(HIGHEST_PRESSURE_KPA);
  const at = (x: number): number => property(lines[fluid].atPressure(Math.exp(x)));
  const rises = at(high) > at(low);
  const isAbove = (x: number): boolean => (rises ? at(x) > value : at(x) < value);
  if (isAbove(low) || (!isAbove(high) && at(high) !== value)) return null;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (isAbove(middle)) high = middle;
    else low = middle;
  }
  return Math.exp(low);
};

/** The pressure at which the saturated liquid has the given density, kPa; null outside the tables. */
export const pressureAtLiquidDensity = (fluid: Fluid, liquidKgPerM3: number): number | null =>
  pressureWhere(fluid, (state) => state.liquidKgPerM3, liquidKgPerM3);
