/**
 * What cooling a warm tank costs: the law of Dulong and Petit, 3R a mole (F: 24.943 J/mol·K), from 1819, in every textbook of
 * physics (C), over the heat of vaporisation (E). Real metals hold less when cold, so it errs to the safe side: aluminium
 * takes some 170 kJ/kg from 20 to 300 K (M, without a source at hand).
 */
import { expect, test } from "vitest";
import { tankChilldown } from "../../app/storage/tank-chilldown.ts";

test("640 kg of aluminium from 110 K to liquid hydrogen by hand: 53.1 MJ, 119 kg boiled at the most (F, E)", () => {
  const { heatKJ, mostKg } = tankChilldown({ massKg: 640, metal: "aluminium", temperatureK: 110 }, "H2", 101.325);
  // 24.9434/26.982 = 0.92445 kJ/kg·K; · 89.729 K · 640 kg; / 446.066 kJ/kg
  expect(heatKJ).toBeCloseTo(53_087, -1);
  expect(mostKg).toBeCloseTo(119.0, 1);
});

test("from room temperature it holds more than aluminium really does (M), by no more than half", () => {
  const { heatKJ } = tankChilldown({ massKg: 1, metal: "aluminium", temperatureK: 300 }, "H2", 101.325);
  expect(heatKJ).toBeGreaterThan(170);
  expect(heatKJ).toBeLessThan(1.6 * 170);
});

test("vapour that leaves warm spares liquid, most of all with hydrogen; a cold wall costs nothing", () => {
  const wall = { massKg: 100, metal: "steel", temperatureK: 250 } as const;
  const [hydrogen, oxygen] = [tankChilldown(wall, "H2", 101.325), tankChilldown(wall, "O2", 101.325)];
  expect(hydrogen.leastKg / hydrogen.mostKg).toBeLessThan(oxygen.leastKg / oxygen.mostKg);
  expect(oxygen.leastKg).toBeLessThan(oxygen.mostKg);
  expect(tankChilldown({ ...wall, temperatureK: 15 }, "H2", 101.325)).toEqual({ heatKJ: 0, mostKg: 0, leastKg: 0 });
  expect(() => tankChilldown({ ...wall, massKg: -1 }, "H2", 101.325)).toThrow(/below 0 kg/);
});
