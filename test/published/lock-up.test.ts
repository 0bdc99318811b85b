/**
 * Hold of a closed tank by the homogeneous saturated model, from 101.325 kPa, energy per m³ of tank: solved from the
 * reference equations of state (E), 2e-3.
 */
import { expect, test } from "vitest";
import type { Fluid } from "../../app/fluid/fluid.ts";
import { holdTime, lockUp } from "../../app/storage/lock-up.ts";

test.each<[Fluid, number, number, number]>([
  ["H2", 0.9, 200, 1665.0],
  ["H2", 0.9, 300, 2955.8],
  ["O2", 0.9, 200, 12_368.8],
  ["CH4", 0.9, 200, 11_954.3],
])("%s, %d full, to %d kPa takes %d kJ/m³ (E)", (fluid, fill, relief, energy) => {
  const end = lockUp(fluid, fill, 101.325, relief);
  expect(end.outcome).toBe("relief");
  expect(Math.abs(end.energyKJPerM3 / energy - 1)).toBeLessThan(2e-3);
});

test("hydrogen 95 % full goes liquid-full before 300 kPa (E)", () => {
  const end = lockUp("H2", 0.95, 101.325, 300);
  expect(end.outcome).toBe("liquid-full");
  expect(end.endKPa).toBeGreaterThan(200);
  expect(end.endKPa).toBeLessThan(300);
  expect(end.endFillFraction).toBeCloseTo(1, 6);
});

test("the shown range is 1.5 to 3 times shorter than the model (M: stratification, from memory)", () => {
  // 100 m³ of hydrogen at 52.094 W: 1665.0 kJ/m³ · 100 m³ / (52.094 W · 86.4 kJ/(W·day)) = 36.99 days
  const hold = holdTime("H2", 0.9, 101.325, 200, 100, 52.094);
  expect(hold.days).toBeCloseTo(36.99, 1);
  expect(hold.days! / hold.cautiousDays!.longest).toBeCloseTo(1.5, 9);
  expect(hold.days! / hold.cautiousDays!.shortest).toBeCloseTo(3, 9);
  expect(hold.caution).toContain("1.5 to 3 times faster");
});
