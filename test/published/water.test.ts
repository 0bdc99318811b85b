/**
 * Water, crew, power: F closed form recomputed outside (molar masses M), P published DOE targets, Q NASA/TP-2015-218570/REV2
 * table 3-31 as quoted, C common practice.
 */
import { expect, test } from "vitest";
import {
  FUEL_CELL_HYDROGEN_KG_PER_KWH,
  FUEL_CELL_OXYGEN_KG_PER_KWH,
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

test("electrolysis 55 kWh/kg and liquefaction 8–12 kWh/kg of hydrogen (P, DOE targets)", () => {
  const day = plantOutput({ ...plant, waterKgPerDay: 8.936 });
  expect(day.hydrogenKg).toBeCloseTo(1, 4);
  expect(day.electrolysisKWh).toBeCloseTo(55, 2);
  expect(day.liquefactionKWh).toBeGreaterThan(8);
  expect(day.liquefactionKWh).toBeLessThan(12);
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
