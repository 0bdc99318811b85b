/**
 * How long a closed tank holds until its relief pressure, by the homogeneous saturated model: at constant volume and mass
 * the heat raises the inner energy from saturation at the present pressure to saturation at relief, at one mean density.
 */
import { PlanningError } from "../ground/failure.ts";
import type { Fluid } from "../fluid/fluid.ts";
import { pressureAtLiquidDensity, type SaturationState, saturationAtPressure } from "../fluid/saturation.ts";

/** Real tanks are warmer at the surface and rise faster than the model by this much (from memory, no source). */
export const STRATIFICATION_FACTORS = { least: 1.5, most: 3 } as const;

export const STRATIFICATION_CAUTION =
  "The model mixes the tank perfectly. Real tanks are warmer at the surface and have been seen to rise 1.5 to 3 times faster (from memory): plan on the shorter time.";

export interface LockUp {
  /** "relief": the relief pressure is reached with vapour left. "liquid-full": the liquid has filled the tank before. "dry": the last liquid has boiled before. */
  readonly outcome: "relief" | "liquid-full" | "dry";
  /** Where it ends, kPa. */
  readonly endKPa: number;
  /** Heat taken up to there, kJ per m³ of tank. */
  readonly energyKJPerM3: number;
  readonly meanDensityKgPerM3: number;
  /** Share of the volume that is liquid at the end. */
  readonly endFillFraction: number;
}

/** Share of the mass that is vapour at a mean density. */
const vapourShare = (state: SaturationState, density: number): number =>
  (1 / density - 1 / state.liquidKgPerM3) / (1 / state.vapourKgPerM3 - 1 / state.liquidKgPerM3);

const energyAt = (state: SaturationState, density: number): number =>
  state.liquidEnergyKJPerKg + vapourShare(state, density) * (state.vapourEnergyKJPerKg - state.liquidEnergyKJPerKg);

/** Pressure at which the last liquid has boiled, by halving between the two pressures given, kPa. */
const dryPressure = (fluid: Fluid, density: number, fromKPa: number, toKPa: number): number => {
  let low = fromKPa;
  let high = toKPa;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (saturationAtPressure(fluid, middle).vapourKgPerM3 < density) low = middle;
    else high = middle;
  }
  return high;
};

/**
 * Heat that a closed tank takes up, `fillFraction` of its volume liquid at `fromKPa`, until `reliefKPa` or until it is
 * full of liquid or without any. Throws "invalid input" if the fill is not above 0 and below 1 or relief is not above the start.
 */
export const lockUp = (fluid: Fluid, fillFraction: number, fromKPa: number, reliefKPa: number): LockUp => {
  if (!(fillFraction > 0 && fillFraction < 1)) {
    throw new PlanningError(
      "invalid input",
      "The liquid must fill more than nothing and less than all of the tank.",
      "fillFraction",
    );
  }
  if (!(reliefKPa > fromKPa)) {
    throw new PlanningError(
      "invalid input",
      `The relief pressure (${reliefKPa} kPa) must be above the pressure now (${fromKPa} kPa).`,
      "reliefKPa",
    );
  }
  const start = saturationAtPressure(fluid, fromKPa);
  const relief = saturationAtPressure(fluid, reliefKPa);
  const density = fillFraction * start.liquidKgPerM3 + (1 - fillFraction) * start.vapourKgPerM3;
  const end = endOf(fluid, density, fromKPa, relief);
  const state = saturationAtPressure(fluid, end.atKPa);
  return {
    outcome: end.outcome,
    endKPa: end.atKPa,
    energyKJPerM3: density * (energyAt(state, density) - energyAt(start, density)),
    meanDensityKgPerM3: density,
    endFillFraction: (density - state.vapourKgPerM3) / (state.liquidKgPerM3 - state.vapourKgPerM3),
  };
};

const endOf = (
  fluid: Fluid,
  density: number,
  fromKPa: number,
  relief: SaturationState,
): { outcome: LockUp["outcome"]; atKPa: number } => {
  if (density > relief.liquidKgPerM3) {
    const full = pressureAtLiquidDensity(fluid, density);
    return { outcome: "liquid-full", atKPa: full ?? fromKPa };
  }
  if (density < relief.vapourKgPerM3) {
    return { outcome: "dry", atKPa: dryPressure(fluid, density, fromKPa, relief.pressureKPa) };
  }
  return { outcome: "relief", atKPa: relief.pressureKPa };
};

export interface HoldTime extends LockUp {
  /** By the model; null: no heat comes in, it holds. */
  readonly days: number | null;
  /** What to plan on: the model's time over the stratification factors. */
  readonly cautiousDays: { readonly shortest: number; readonly longest: number } | null;
  readonly caution: string;
}

/** Days that a closed tank of `volumeM3` holds while `heatW` comes in. */
export const holdTime = (
  fluid: Fluid,
  fillFraction: number,
  fromKPa: number,
  reliefKPa: number,
  volumeM3: number,
  heatW: number,
): HoldTime => {
  const locked = lockUp(fluid, fillFraction, fromKPa, reliefKPa);
  const days = heatW > 0 ? (locked.energyKJPerM3 * volumeM3) / (heatW * 86.4) : null;
  return {
    ...locked,
    days,
    cautiousDays:
      days === null
        ? null
        : { shortest: days / STRATIFICATION_FACTORS.most, longest: days / STRATIFICATION_FACTORS.least },
    caution: STRATIFICATION_CAUTION,
  };
};
