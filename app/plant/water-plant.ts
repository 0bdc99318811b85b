/** Propellant from water by electrolysis: pairs made, oxygen left over and its uses, energy. */
import { PlanningError } from "../contract/failure.ts";
import type { WaterPlant } from "../ledger/entity/water-plant.ts";

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
  /** Of breathing and fuel cells, what the plant cannot cover. */
  readonly oxygenMissingKg: number;
  readonly oxygenVentedKg: number;
  readonly hydrogenVentedKg: number;
  readonly electrolysisKWh: number;
  readonly liquefactionKWh: number;
  readonly totalKWh: number;
  /** Electric power around the clock on a day of duty, kW. */
  readonly powerKW: number;
}

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

/**
 * One day of duty. Fuel cells take their hydrogen first; the rest is paired at the engines' mixture ratio. Oxygen beyond
 * the pairs is breathed, then burned in fuel cells, then vented. Only what goes to engines is liquefied.
 * Throws "invalid input" with the field that is out of range.
 */
export const plantOutput = (plant: PlantDay): PlantOutput => {
  checkPlant(plant);
  const waterUsedKg = plant.waterKgPerDay * plant.recoveryFraction;
  const hydrogenKg = waterUsedKg / (1 + OXYGEN_PER_HYDROGEN);
  const oxygenKg = waterUsedKg - hydrogenKg;

  const fuelCellHydrogenKg = Math.min(hydrogenKg, plant.fuelCellKWhPerDay * plant.fuelCellHydrogenKgPerKWh);
  const hydrogenLeftKg = hydrogenKg - fuelCellHydrogenKg;
  const isHydrogenShort = hydrogenLeftKg * plant.mixtureRatio <= oxygenKg;
  const propellantHydrogenKg = isHydrogenShort ? hydrogenLeftKg : oxygenKg / plant.mixtureRatio;
  const propellantOxygenKg = isHydrogenShort ? hydrogenLeftKg * plant.mixtureRatio : oxygenKg;

  const oxygenSurplusKg = oxygenKg - propellantOxygenKg;
  const breathingKg = plant.persons * OXYGEN_PER_PERSON_DAY_KG;
  const breathedKg = Math.min(breathingKg, oxygenSurplusKg);
  const fuelCellsKg = plant.fuelCellKWhPerDay * plant.fuelCellOxygenKgPerKWh;
  const fuelCellOxygenKg = Math.min(fuelCellsKg, oxygenSurplusKg - breathedKg);
  const electrolysisKWh = hydrogenKg * plant.electrolysisKWhPerKgHydrogen;
  const liquefactionKWh =
    propellantHydrogenKg * plant.liquefactionKWhPerKgHydrogen + propellantOxygenKg * plant.liquefactionKWhPerKgOxygen;
  return {
    waterUsedKg,
    waterLostKg: plant.waterKgPerDay - waterUsedKg,
    hydrogenKg,
    oxygenKg,
    propellantHydrogenKg,
    propellantOxygenKg,
    propellantKg: propellantHydrogenKg + propellantOxygenKg,
    limitedBy: isHydrogenShort ? "hydrogen" : "oxygen",
    oxygenSurplusKg,
    breathedKg,
    fuelCellOxygenKg,
    fuelCellHydrogenKg,
    // Each for itself: what is covered leaves exactly nothing, not the last digits of a sum.
    oxygenMissingKg: breathingKg - breathedKg + (fuelCellsKg - fuelCellOxygenKg),
    oxygenVentedKg: oxygenSurplusKg - breathedKg - fuelCellOxygenKg,
    hydrogenVentedKg: hydrogenLeftKg - propellantHydrogenKg,
    electrolysisKWh,
    liquefactionKWh,
    totalKWh: electrolysisKWh + liquefactionKWh,
    powerKW: (electrolysisKWh + liquefactionKWh) / HOURS_PER_DAY,
  };
};
