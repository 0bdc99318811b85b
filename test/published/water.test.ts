/**
 * Water, crew, power: F closed form recomputed outside (molar masses M), P published as cited beside it, Q NASA/TP-2015-218570/REV2
 * table 3-31 as quoted, C common practice.
 */
import { expect, test } from "vitest";
import { freshPlant } from "../../app/plant/fresh-plant.ts";
import {
  FUEL_CELL_HYDROGEN_KG_PER_KWH,
  FUEL_CELL_OXYGEN_KG_PER_KWH,
  LEAST_ELECTROLYSIS_KWH_PER_KG,
  OXYGEN_PER_HYDROGEN,
  plantOutput,
} from "../../app/plant/water-plant.ts";

const plant = {
  waterKgPerDay: 1,
  recoveryFraction: 1,
  mixtureRatio: 5.5,
  persons: 0,
  fuelCellKWhPerDay: 0,
  fuelCellHydrogenKgPerKWh: FUEL_CELL_HYDROGEN_KG_PER_KWH,
  fuelCellOxygenKgPerKWh: FUEL_CELL_OXYGEN_KG_PER_KWH,
  electrolysisKWhPerKgHydrogen: 55,
  liquefactionKWhPerKgHydrogen: 10,
  liquefactionKWhPerKgOxygen: 0,
};

test("oxygen to hydrogen from water 7.93601 (F), about eight to one (C)", () => {
  expect(OXYGEN_PER_HYDROGEN).toBeCloseTo(7.93601, 5);
  const day = plantOutput(plant);
  expect(day.oxygenKg / day.hydrogenKg).toBeCloseTo(7.93601, 5);
});

test.each([
  [5.5, 0.727394, 0.272606],
  [6, 0.783347, 0.216653],
])("at mixture ratio %d one kg of water makes %d kg and leaves %d kg of oxygen (F)", (mixtureRatio, made, left) => {
  const day = plantOutput({ ...plant, mixtureRatio });
  expect(day.propellantKg).toBeCloseTo(made, 6);
  expect(day.oxygenSurplusKg).toBeCloseTo(left, 6);
  expect(day.limitedBy).toBe("hydrogen");
});

test("no plant splits water below its heat of formation, 39.38 kWh/kg of hydrogen (P, CODATA: 285.83 kJ/mol)", () => {
  // From the other side: the thermoneutral voltage of water, 1.481 V (M), times Faraday's charge of a kilogram.
  const byVoltage = (1.481 * 2 * 96_485.33212) / (2.016 / 1000) / 3.6e6;
  expect(LEAST_ELECTROLYSIS_KWH_PER_KG).toBeCloseTo(39.38, 2);
  expect(LEAST_ELECTROLYSIS_KWH_PER_KG).toBeCloseTo(byVoltage, 1);
  expect(plantOutput({ ...plant, electrolysisKWhPerKgHydrogen: 39.3 }).cautions).toHaveLength(1);
  expect(plantOutput({ ...plant, electrolysisKWhPerKgHydrogen: 39.4 }).cautions).toEqual([]);
});

test("what a fresh plant is given lies above the reversible work: an input, not a result (F)", () => {
  // Heat taken out at the boiling point by a reversible engine against 300 K, with the table's heat of vaporisation, and on
  // the way down with 5/2 R, which no gas goes below: a bound from beneath, kWh/kg.
  const bound = (boilingK: number, vaporisationKJ: number, molarMass: number): number => {
    const heatCapacity = (2.5 * 8.314_462_618) / molarMass;
    const way = 300 * Math.log(300 / boilingK) - (300 - boilingK);
    return ((300 / boilingK - 1) * vaporisationKJ + heatCapacity * way) / 3600;
  };
  const fresh = freshPlant(0, 1);
  expect(fresh.electrolysisKWhPerKgHydrogen).toBeGreaterThan(LEAST_ELECTROLYSIS_KWH_PER_KG);
  expect(bound(20.2713, 446.066, 2.01588)).toBeCloseTo(3.2, 1);
  expect(fresh.liquefactionKWhPerKgHydrogen).toBeGreaterThan(bound(20.2713, 446.066, 2.01588));
  expect(fresh.liquefactionKWhPerKgOxygen).toBeGreaterThan(bound(90.1878, 213.056, 31.9988));
});

test("fuel cells at 0.90 V by Faraday's law (F): 0.04179 kg H2 and 0.33164 kg O2 per kWh", () => {
  const kWh = 3.6e6;
  const moles = kWh / 0.9 / (2 * 96_485.33212);
  expect(FUEL_CELL_HYDROGEN_KG_PER_KWH).toBeCloseTo((moles * 2.016) / 1000, 5);
  expect(FUEL_CELL_OXYGEN_KG_PER_KWH).toBeCloseTo((moles * 15.999) / 1000, 5);
});

test("four persons breathe 0.895 kg each a day (Q) of a surplus that covers it", () => {
  const day = plantOutput({ ...plant, waterKgPerDay: 100, persons: 4 });
  expect(day.breathedKg).toBeCloseTo(3.58, 6);
  expect(day.oxygenMissingKg).toBe(0);
  expect(day.oxygenVentedKg).toBeCloseTo(27.2606 - 3.58, 3);
});
