/** The plant: balances of mass, uses of the surplus in their order, duty, and what it refuses. */
import { assert, double, integer, property, record } from "fast-check";
import { expect, test } from "vitest";
import { dutyDays, loadReadyInstants } from "../../../app/plant/ready-loads.ts";
import { type PlantDay, plantOutput } from "../../../app/plant/water-plant.ts";

const plant: PlantDay = {
  waterKgPerDay: 1000,
  recoveryFraction: 0.9,
  mixtureRatio: 5.5,
  persons: 0,
  fuelCellKWhPerDay: 0,
  fuelCellHydrogenKgPerKWh: 0.04179,
  fuelCellOxygenKgPerKWh: 0.33164,
  electrolysisKWhPerKgHydrogen: 55,
  liquefactionKWhPerKgHydrogen: 10,
  liquefactionKWhPerKgOxygen: 1,
};

test("every kilogram of water is somewhere", () => {
  assert(
    property(
      record({
        waterKgPerDay: double({ min: 0, max: 1e5, noNaN: true }),
        recoveryFraction: double({ min: 0, max: 1, noNaN: true }),
        mixtureRatio: double({ min: 1, max: 12, noNaN: true }),
        persons: integer({ min: 0, max: 30 }),
        fuelCellKWhPerDay: double({ min: 0, max: 1e4, noNaN: true }),
      }),
      (change) => {
        const day = plantOutput({ ...plant, ...change });
        const oxygen = day.propellantOxygenKg + day.breathedKg + day.fuelCellOxygenKg + day.oxygenVentedKg;
        const hydrogen = day.propellantHydrogenKg + day.fuelCellHydrogenKg + day.hydrogenVentedKg;
        const parts = Object.values(day).filter((part): part is number => typeof part === "number");
        const tolerance = 1e-9 * (1 + change.waterKgPerDay + change.fuelCellKWhPerDay);
        const out = oxygen + hydrogen + day.waterLostKg - day.fuelCellWaterKg;
        expect(Math.abs(out - change.waterKgPerDay)).toBeLessThan(tolerance);
        expect(Math.min(...parts)).toBeGreaterThan(-tolerance);
      },
    ),
  );
});

test("a mixture ratio above that of water is limited by oxygen and leaves hydrogen", () => {
  const day = plantOutput({ ...plant, mixtureRatio: 9 });
  expect(day.limitedBy).toBe("oxygen");
  expect(day.oxygenSurplusKg).toBe(0);
  expect(day.hydrogenVentedKg).toBeGreaterThan(0);
});

test("breathing comes before fuel cells, and what is missing is said", () => {
  const day = plantOutput({ ...plant, waterKgPerDay: 100, mixtureRatio: 7.8, persons: 3, fuelCellKWhPerDay: 20 });
  expect(day.breathedKg).toBe(Math.min(3 * 0.895, day.oxygenSurplusKg));
  expect(day.oxygenMissingKg + day.breathedKg + day.fuelCellOxygenKg).toBeCloseTo(3 * 0.895 + 20 * 0.33164, 9);
});

test("fuel cells cost the pairs nothing: their hydrogen comes back as water, and splitting it again takes the energy", () => {
  const without = plantOutput(plant);
  const withCells = plantOutput({ ...plant, fuelCellKWhPerDay: 60 });
  // 60 kWh at 0.90 V burn 2.5074 kg of hydrogen and 19.898 kg of oxygen to 22.4 kg of water.
  expect(withCells.fuelCellWaterKg).toBeCloseTo(22.4, 1);
  expect(withCells.propellantKg / without.propellantKg).toBeCloseTo(1, 4);
  expect(withCells.electrolysisKWh - without.electrolysisKWh).toBeCloseTo(2.5074 * 55, 0);
});

test("without water nothing goes round", () => {
  const day = plantOutput({ ...plant, waterKgPerDay: 0, fuelCellKWhPerDay: 60 });
  expect([day.fuelCellWaterKg, day.hydrogenKg, day.propellantKg]).toEqual([0, 0, 0]);
});

test("energy is by what is made and what is liquefied", () => {
  const day = plantOutput(plant);
  expect(day.electrolysisKWh).toBeCloseTo((900 / 8.93601) * 55, 2);
  expect(day.liquefactionKWh).toBeCloseTo(day.propellantHydrogenKg * 10 + day.propellantOxygenKg, 9);
});

test.each([
  ["waterKgPerDay", -1],
  ["recoveryFraction", 1.1],
  ["mixtureRatio", 0],
  ["persons", Number.NaN],
])("%s of %d is refused by name", (field, value) => {
  expect(() => plantOutput({ ...plant, [field]: value })).toThrow(expect.objectContaining({ field }));
});

const DAY = 86_400_000;
const duty = [
  { fromAt: 0, untilAt: 10 * DAY },
  { fromAt: 20 * DAY, untilAt: 30 * DAY },
];

test("loads are ready only while it works, the part made before is kept", () => {
  expect(loadReadyInstants({ propellantKg: 100 }, duty, 400).map((at) => at / DAY)).toEqual([4, 8, 22, 26, 30]);
  expect(dutyDays(duty, 25 * DAY)).toBe(15);
  expect(loadReadyInstants({ propellantKg: 0 }, duty, 400)).toEqual([]);
});

test("duty that overlaps, ends early, or an empty load is refused", () => {
  expect(() => loadReadyInstants({ propellantKg: 1 }, [{ fromAt: 2, untilAt: 1 }], 1)).toThrow(/ends before/);
  expect(() => loadReadyInstants({ propellantKg: 1 }, [...duty, { fromAt: 25 * DAY, untilAt: 50 * DAY }], 1)).toThrow(
    /overlap/,
  );
  expect(() => loadReadyInstants({ propellantKg: 1 }, duty, 0)).toThrow(/above 0 kg/);
});
