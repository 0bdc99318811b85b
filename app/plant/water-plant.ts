/** Propellant from water by electrolysis: pairs made, oxygen left over and its uses, energy. */
import { PlanningError } from "../ground/failure.ts";
import type { WaterPlant } from "../entity/water-plant.ts";

/** Standard atomic masses (CIAAW): hydrogen 1.008, oxygen 15.999. */
export const OXYGEN_PER_HYDROGEN = 15.999 / (2 * 1.008);

/** A person breathes this much oxygen a day, kg: NASA/TP-2015-218570/REV2, table 3-31, as quoted. */
export const OXYGEN_PER_PERSON_DAY_KG = 0.895;

const HOURS_PER_DAY = 24;

/** A plant without its duty: what it does on a day of work. */
export type PlantDay = Omit<WaterPlant, "duty">;

/** Fuel cells at 0.90 V per cell: kg/kWh from Faraday's law. */
export const FUEL_CELL_HYDROGEN_KG_PER_KWH = 0.04179;
export const FUEL_CELL_OXYGEN_KG_PER_KWH = 0.33164;

/** One day of duty. kg/day unless said. */
export interface PlantOutput {
  readonly waterUsedKg: number;
  readonly waterLostKg: number;
  readonly hydrogenKg: number;
  readonly oxygenKg: number;
  /** For engines: all hydrogen that is left and the oxygen that goes with it. */
  readonly propellantHydrogenKg: number;
  readonly propellantOxygenKg: number;
  readonly propellantKg: number;
  /** Which of the two sets the amount: oxygen only at mixture ratios above that of water. */
  readonly limitedBy: "hydrogen" | "oxygen";
  /** Oxygen that the engines do not take, and what becomes of it. */
  readonly oxygenSurplusKg: number;
  readonly breathedKg: number;
  readonly fuelCellOxygenKg: number;
  readonly fuelCellHydrogenKg: number;
  /** Water that the fuel cells make and the plant splits again: with `waterUsedKg` it is all that is split. */
  readonly fuelCellWaterKg: number;
  /** Of breathing and fuel cells, what the plant cannot cover. */
  readonly oxygenMissingKg: number;
  readonly oxygenVentedKg: number;
  readonly hydrogenVentedKg: number;
  readonly electrolysisKWh: number;
  readonly liquefactionKWh: number;
  readonly totalKWh: number;
  /** Electric power around the clock on a day of duty, kW. */
  readonly powerKW: number;
  /** What cannot be, or is not believed, about the plant as described. */
  readonly cautions: readonly string[];
}

/**
 * Splitting water takes its heat of formation at least: 285.83 kJ/mol for the liquid at 298.15 K (CODATA key values for
 * thermodynamics, Cox, Wagman and Medvedev, 1989), kWh per kg of hydrogen.
 */
export const LEAST_ELECTROLYSIS_KWH_PER_KG = 285.83 / (2 * 1.008) / 3.6;

const cautionsOf = (plant: PlantDay): readonly string[] =>
  plant.electrolysisKWhPerKgHydrogen < LEAST_ELECTROLYSIS_KWH_PER_KG
    ? [
        `Electrolysis at ${plant.electrolysisKWhPerKgHydrogen} kWh/kg cannot be: splitting water takes ${LEAST_ELECTROLYSIS_KWH_PER_KG.toFixed(1)} kWh per kg of hydrogen at least, its heat of formation.`,
      ]
    : [];

/** What the given gases make of water, kg: whichever of the two is scarce limits it. */
const waterOf = (hydrogenKg: number, oxygenKg: number): number =>
  Math.min(hydrogenKg * (1 + OXYGEN_PER_HYDROGEN), oxygenKg * (1 + 1 / OXYGEN_PER_HYDROGEN));

/** The water that goes round settles where the fuel cells make as much as comes back; each round it shrinks to that. */
const MAX_ROUNDS = 10_000;

const inRange = (value: number, low: number, high: number, field: string, what: string): void => {
  if (!(value >= low && value <= high)) {
    throw new PlanningError("invalid input", `${what} must be from ${low} to ${high}; it is ${value}.`, field);
  }
};

const checkPlant = (plant: PlantDay): void => {
  inRange(plant.waterKgPerDay, 0, 1e7, "waterKgPerDay", "Water in kg a day");
  inRange(plant.recoveryFraction, 0, 1, "recoveryFraction", "The share recovered");
  inRange(plant.mixtureRatio, 0.1, 100, "mixtureRatio", "The mixture ratio");
  inRange(plant.persons, 0, 1000, "persons", "The number of persons");
  inRange(plant.fuelCellKWhPerDay, 0, 1e7, "fuelCellKWhPerDay", "Energy by fuel cells in kWh a day");
  inRange(plant.fuelCellHydrogenKgPerKWh, 0, 1, "fuelCellHydrogenKgPerKWh", "Hydrogen per kWh");
  inRange(plant.fuelCellOxygenKgPerKWh, 0, 8, "fuelCellOxygenKgPerKWh", "Oxygen per kWh");
  inRange(plant.electrolysisKWhPerKgHydrogen, 0, 1000, "electrolysisKWhPerKgHydrogen", "Energy of electrolysis");
  inRange(plant.liquefactionKWhPerKgHydrogen, 0, 1000, "liquefactionKWhPerKgHydrogen", "Energy to liquefy hydrogen");
  inRange(plant.liquefactionKWhPerKgOxygen, 0, 1000, "liquefactionKWhPerKgOxygen", "Energy to liquefy oxygen");
};

type Shares = Pick<
  PlantOutput,
  | "hydrogenKg"
  | "oxygenKg"
  | "propellantHydrogenKg"
  | "propellantOxygenKg"
  | "limitedBy"
  | "oxygenSurplusKg"
  | "breathedKg"
  | "fuelCellOxygenKg"
  | "fuelCellHydrogenKg"
>;

/** What becomes of the gases of so much water split. */
const sharesOf = (plant: PlantDay, splitKg: number): Shares => {
  const hydrogenKg = splitKg / (1 + OXYGEN_PER_HYDROGEN);
  const oxygenKg = splitKg - hydrogenKg;
  const fuelCellHydrogenKg = Math.min(hydrogenKg, plant.fuelCellKWhPerDay * plant.fuelCellHydrogenKgPerKWh);
  const hydrogenLeftKg = hydrogenKg - fuelCellHydrogenKg;
  const isHydrogenShort = hydrogenLeftKg * plant.mixtureRatio <= oxygenKg;
  const propellantHydrogenKg = isHydrogenShort ? hydrogenLeftKg : oxygenKg / plant.mixtureRatio;
  const propellantOxygenKg = isHydrogenShort ? hydrogenLeftKg * plant.mixtureRatio : oxygenKg;
  const oxygenSurplusKg = oxygenKg - propellantOxygenKg;
  const breathedKg = Math.min(plant.persons * OXYGEN_PER_PERSON_DAY_KG, oxygenSurplusKg);
  const fuelCellsKg = plant.fuelCellKWhPerDay * plant.fuelCellOxygenKgPerKWh;
  return {
    hydrogenKg,
    oxygenKg,
    propellantHydrogenKg,
    propellantOxygenKg,
    limitedBy: isHydrogenShort ? "hydrogen" : "oxygen",
    oxygenSurplusKg,
    breathedKg,
    fuelCellOxygenKg: Math.min(fuelCellsKg, oxygenSurplusKg - breathedKg),
    fuelCellHydrogenKg,
  };
};

/** The most water that the fuel cells can give back day by day, kg: what they make of the split of just that and the feed. */
const waterBack = (plant: PlantDay, feedKg: number): number => {
  const { fuelCellKWhPerDay: kWh, fuelCellHydrogenKgPerKWh, fuelCellOxygenKgPerKWh } = plant;
  // Without feed there is nothing that could go round.
  let backKg = feedKg > 0 ? waterOf(kWh * fuelCellHydrogenKgPerKWh, kWh * fuelCellOxygenKgPerKWh) : 0;
  for (let round = 0; round < MAX_ROUNDS; round++) {
    const { fuelCellHydrogenKg, fuelCellOxygenKg } = sharesOf(plant, feedKg + backKg);
    const madeKg = waterOf(fuelCellHydrogenKg, fuelCellOxygenKg);
    if (backKg - madeKg <= 1e-12 * (feedKg + backKg)) return Math.min(backKg, madeKg);
    backKg = madeKg;
  }
  return 0;
};

/**
 * One day of duty among many alike. Fuel cells take their hydrogen first; the rest is paired at the engines' mixture
 * ratio. Oxygen beyond the pairs is breathed, then burned in fuel cells, then vented. The fuel cells' water is split again,
 * so that they cost energy but no propellant. Only what goes to engines is liquefied.
 * Throws "invalid input" with the field that is out of range.
 */
export const plantOutput = (plant: PlantDay): PlantOutput => {
  checkPlant(plant);
  const waterUsedKg = plant.waterKgPerDay * plant.recoveryFraction;
  const fuelCellWaterKg = waterBack(plant, waterUsedKg);
  const shares = sharesOf(plant, waterUsedKg + fuelCellWaterKg);
  const { hydrogenKg, propellantHydrogenKg, propellantOxygenKg, breathedKg, fuelCellOxygenKg } = shares;
  const breathingKg = plant.persons * OXYGEN_PER_PERSON_DAY_KG;
  const fuelCellsKg = plant.fuelCellKWhPerDay * plant.fuelCellOxygenKgPerKWh;
  const electrolysisKWh = hydrogenKg * plant.electrolysisKWhPerKgHydrogen;
  const liquefactionKWh =
    propellantHydrogenKg * plant.liquefactionKWhPerKgHydrogen + propellantOxygenKg * plant.liquefactionKWhPerKgOxygen;
  return {
    waterUsedKg,
    waterLostKg: plant.waterKgPerDay - waterUsedKg,
    ...shares,
    fuelCellWaterKg,
    propellantKg: propellantHydrogenKg + propellantOxygenKg,
    // Each for itself: what is covered leaves exactly nothing, not the last digits of a sum.
    oxygenMissingKg: breathingKg - breathedKg + (fuelCellsKg - fuelCellOxygenKg),
    oxygenVentedKg: shares.oxygenSurplusKg - breathedKg - fuelCellOxygenKg,
    hydrogenVentedKg: hydrogenKg - shares.fuelCellHydrogenKg - propellantHydrogenKg,
    electrolysisKWh,
    liquefactionKWh,
    totalKWh: electrolysisKWh + liquefactionKWh,
    powerKW: (electrolysisKWh + liquefactionKWh) / HOURS_PER_DAY,
    cautions: cautionsOf(plant),
  };
};
