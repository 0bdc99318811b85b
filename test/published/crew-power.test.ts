/** What people and fuel cells take from the tanks. */
import { expect, test } from "vitest";
import { sortieSheet } from "../../app/sortie/sheet.ts";
import { densities, nothingAboard, plainLander, profileOf, stay } from "../app/sortie/example.ts";

// Q: NASA/TP-2015-218570/REV2, table 3-31, as quoted elsewhere: 0.895 kg O2 and 3.217 kg potable water per person and day.
test("four persons breathe 35.8 kg of oxygen in ten days", () => {
  const lander = { ...plainLander, crew: [{ propellantId: "oxygen", kgPerPersonDay: 0.895 }] };
  const sheet = sortieSheet(lander, profileOf([stay(10)]), { ...nothingAboard, crew: 4 }, densities);
  expect(sheet.lines.find(({ propellantId }) => propellantId === "oxygen")?.loadKg).toBeCloseTo(35.8, 9);
});

// F: Faraday's law at 0.90 V a cell: 0.04179 kg H2 and 0.33164 kg O2 per kWh, from F = 96,485.332 C/mol and the molar
// masses of the gases; recomputed here from those.
test("a kWh from cells at 0.90 V takes what Faraday's law says", () => {
  const molesOfHydrogen = 3.6e6 / (0.9 * 2 * 96_485.332);
  expect((molesOfHydrogen * 2.01588) / 1000).toBeCloseTo(0.04179, 5);
  expect((molesOfHydrogen * 31.9988) / 2000).toBeCloseTo(0.33164, 4);
});

test("3 kW over five days take 15.04 kg of hydrogen and 119.4 kg of oxygen", () => {
  const lander = {
    ...plainLander,
    fuelCells: [
      { propellantId: "hydrogen", kgPerKwh: 0.04179 },
      { propellantId: "oxygen", kgPerKwh: 0.33164 },
    ],
  };
  const sheet = sortieSheet(lander, profileOf([stay(5, { powerKw: 3 })]), nothingAboard, densities);
  const load = (id: string) => sheet.lines.find(({ propellantId }) => propellantId === id)?.loadKg;
  expect(load("hydrogen")).toBeCloseTo(15.0444, 3);
  expect(load("oxygen")).toBeCloseTo(119.39, 2);
});
