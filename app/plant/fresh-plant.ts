/** The plant that a form begins with: round figures, each with where it comes from; the planner puts in their own. */
import type { WaterPlant } from "../entity/water-plant.ts";
import { FUEL_CELL_HYDROGEN_KG_PER_KWH, FUEL_CELL_OXYGEN_KG_PER_KWH } from "./water-plant.ts";

/** Where each default comes from, in the words that stand under its field. */
export const plantOrigins = {
  waterKgPerDay: "what reaches the plant on a day of duty",
  recoveryFraction: "assumed 95 %: of the water, what is split",
  mixtureRatio: "oxygen to hydrogen in the engines, usually 5.5 to 6; water holds 7.94",
  persons: "each breathes 0.895 kg of oxygen a day (NASA/TP-2015-218570/REV2, as quoted)",
  fuelCellKWhPerDay: "their water is split again: they cost energy, no pairs",
  fuelCellHydrogenKgPerKWh: "0.04179 at 0.90 V a cell, by Faraday's law",
  fuelCellOxygenKgPerKWh: "0.33164 at 0.90 V a cell, by Faraday's law",
  electrolysisKWhPerKgHydrogen: "at least 39.4; systems about 55 (DOE targets)",
  liquefactionKWhPerKgHydrogen: "10 is from memory, without a source at hand",
  liquefactionKWhPerKgOxygen: "0.5 is from memory, without a source at hand",
} as const satisfies { readonly [F in Exclude<keyof WaterPlant, "duty">]: string };

/** On duty from one instant to the other; without duty if that span is none. */
export const freshPlant = (fromAt: number, untilAt: number): WaterPlant => ({
  waterKgPerDay: 500,
  recoveryFraction: 0.95,
  mixtureRatio: 5.5,
  persons: 0,
  fuelCellKWhPerDay: 0,
  fuelCellHydrogenKgPerKWh: FUEL_CELL_HYDROGEN_KG_PER_KWH,
  fuelCellOxygenKgPerKWh: FUEL_CELL_OXYGEN_KG_PER_KWH,
  electrolysisKWhPerKgHydrogen: 55,
  liquefactionKWhPerKgHydrogen: 10,
  liquefactionKWhPerKgOxygen: 0.5,
  duty: untilAt > fromAt ? [{ fromAt, untilAt }] : [],
});
