/**
 * Boil-off. Status of each figure beside it: Q quoted by a later text, F closed form recomputed outside, E equations of state.
 */
import { expect, test } from "vitest";
import { boiledKgPerDay, netHeatW, ventedShare } from "../../app/storage/boil-off.ts";
import { heatBudget } from "../../app/storage/heat-budget.ts";
import { kFromPercent, percentFromK, rateInUnits } from "../../app/storage/rate-units.ts";
import { saturationAtPressure } from "../../app/fluid/saturation.ts";
import type { Fluid } from "../../app/fluid/fluid.ts";

const heatOf = (fluid: Fluid): number => saturationAtPressure(fluid, 101.325).vaporisationKJPerKg;

test.each([
  [300, 0.264],
  [1000, 0.88],
])("22 t of hydrogen at %d W boils %d %% a day (Q)", (heatW, percent) => {
  expect((100 * boiledKgPerDay(heatW, heatOf("H2"))) / 22_000).toBeCloseTo(percent, 2);
});

/** Area of a sphere of 100 m³. */
const sphereM2 = Math.cbrt(36 * Math.PI * 100 ** 2);

test.each([
  ["H2", 52.094, 10.0903, 0.14246],
  ["O2", 52.094, 21.1255, 0.018512],
] as const)("a 100 m³ sphere of %s at 0.5 W/m² (F)", (fluid, heatW, kgPerDay, percent) => {
  const budget = heatBudget({
    kind: "heat balance",
    fluid,
    pressureKPa: 101.325,
    insulation: { kind: "flux", areaM2: sphereM2, fluxWPerM2: 0.5, note: "" },
    paths: [],
    environmentFactor: 1,
    coolers: [],
  });
  expect(budget.netW).toBeCloseTo(heatW, 3);
  const boiled = boiledKgPerDay(budget.netW, heatOf(fluid));
  expect(boiled).toBeCloseTo(kgPerDay, 3);
  const full = 100 * budget.state.liquidKgPerM3;
  expect((100 * boiled) / full).toBeCloseTo(percent, 5);
  expect(rateInUnits({ kPerDay: 0, cKgPerDay: boiled }, full, heatOf(fluid)).percentPerDay).toBeCloseTo(percent, 5);
});

test("30 days at 0.127 %/day lose 3.7407 %, not 3.81 % (F; the rate itself Q, passive storage near Earth)", () => {
  const k = kFromPercent(0.127, 1);
  expect(percentFromK(k, 30)).toBeCloseTo(3.7407, 4);
  expect(percentFromK(kFromPercent(3.7407, 30), 1)).toBeCloseTo(0.127, 5);
  expect(rateInUnits({ kPerDay: k, cKgPerDay: 0 }, 1000, null).percentPerMonth).toBeCloseTo(3.7407, 4);
});

test("oxygen at 0.016 %/day, passive near Earth (Q), compounds to 0.47889 % in 30 days (F: 1 − 0.99984³⁰)", () => {
  expect(percentFromK(kFromPercent(0.016, 1), 30)).toBeCloseTo(0.47889, 4);
});

test("of what boils at constant pressure, 1 − ρv/ρl is vented: hydrogen 98.11 %, oxygen 99.61 % (E)", () => {
  expect(100 * ventedShare(saturationAtPressure("H2", 101.325))).toBeCloseTo(98.11, 2);
  expect(100 * ventedShare(saturationAtPressure("O2", 101.325))).toBeCloseTo(99.61, 2);
});

test("a cooler that lifts more than comes in leaves zero boil-off, never a gain", () => {
  expect(netHeatW(1.2, 50, 80)).toBe(0);
  expect(netHeatW(2, 50, 80)).toBe(20);
});
