/**
 * Saturation properties against the published reference equations of state (status E: solved from them) and a point of the
 * NIST Chemistry WebBook (P: text seen; its molar mass of oxygen, 31.9988 g/mol).
 * Equations: Leachman and others, JPCRD 38 (2009) 721, doi 10.1063/1.3160306; Stewart, Jacobsen, Wagner, JPCRD 20 (1991)
 * 917; Setzmann, Wagner, JPCRD 20 (1991) 1061.
 */
import { describe, expect, test } from "vitest";
import { boiledKgPerDay } from "../../app/storage/boil-off.ts";
import type { Fluid } from "../../app/fluid/fluid.ts";
import { saturationAtPressure } from "../../app/fluid/saturation.ts";

/** Fluid, p kPa, T K, ρ liquid, ρ vapour, h_fg kJ/kg, u_v−u_l, u_l−u_l(101.325 kPa). */
const states: readonly [Fluid, number, number, number, number, number, number, number][] = [
  ["H2", 101.325, 20.2713, 70.828, 1.3386, 446.066, 371.802, 0],
  ["H2", 200, 22.802, 67.693, 2.4967, 429.4, 352.244, 26.039],
  ["H2", 300, 24.5658, 65.162, 3.6704, 410.57, 333.434, 46.65],
  ["O2", 101.325, 90.1878, 1141.172, 4.4671, 213.056, 190.462, 0],
  ["O2", 200, 97.2355, 1105.4, 8.3545, 205.74, 181.983, 12.015],
  ["O2", 300, 102.0244, 1080.06, 12.17, 200.2, 175.826, 20.278],
  ["CH4", 101.325, 111.6672, 422.356, 1.8164, 510.828, 455.286, 0],
  ["CH4", 200, 120.6219, 408.95, 3.3966, 493.31, 434.92, 31.377],
  ["CH4", 300, 126.7144, 399.38, 4.9486, 479.88, 420.006, 53.087],
];

/** By what share the value is off. */
const off = (actual: number, expected: number): number => Math.abs(actual / expected - 1);

describe("reference equations of state (E), 1e-3", () => {
  test.each(states)("%s at %d kPa", (fluid, p, t, liquid, vapour, heat, energyStep, liquidEnergy) => {
    const state = saturationAtPressure(fluid, p);
    expect(off(state.temperatureK, t)).toBeLessThan(1e-3);
    expect(off(state.liquidKgPerM3, liquid)).toBeLessThan(1e-3);
    expect(off(state.vapourKgPerM3, vapour)).toBeLessThan(1e-3);
    expect(off(state.vaporisationKJPerKg, heat)).toBeLessThan(1e-3);
    expect(off(state.vapourEnergyKJPerKg - state.liquidEnergyKJPerKg, energyStep)).toBeLessThan(1e-3);
    expect(Math.abs(state.liquidEnergyKJPerKg - liquidEnergy)).toBeLessThanOrEqual(liquidEnergy * 1e-3 + 1e-9);
  });

  test.each([
    ["H2", 0.193693],
    ["O2", 0.405527],
    ["CH4", 0.169137],
  ] as const)("%s: kg a day boiled per watt", (fluid, perWatt) => {
    expect(off(boiledKgPerDay(1, saturationAtPressure(fluid, 101.325).vaporisationKJPerKg), perWatt)).toBeLessThan(
      1e-5,
    );
  });

  test("the enthalpy and energy steps agree: h_fg = Δu + p·Δv, first law of the tables themselves", () => {
    for (const [fluid, p] of states) {
      const s = saturationAtPressure(fluid, p);
      const work = p * (1 / s.vapourKgPerM3 - 1 / s.liquidKgPerM3);
      expect(off(s.vapourEnergyKJPerKg - s.liquidEnergyKJPerKg + work, s.vaporisationKJPerKg)).toBeLessThan(1e-5);
    }
  });
});

test("oxygen at 20 kPa, NIST Chemistry WebBook (P), 1e-3", () => {
  const state = saturationAtPressure("O2", 20);
  expect(off(state.temperatureK, 77.1)).toBeLessThan(1e-3);
  expect(off(state.liquidKgPerM3, 1204.1)).toBeLessThan(1e-3);
  expect(off(state.vapourKgPerM3, 1.0081)).toBeLessThan(1e-3);
  expect(off(state.vaporisationKJPerKg, (2.216 + 4.9756) / (31.9988 / 1000))).toBeLessThan(1e-3);
});

test("hydrogen's heat of vaporisation has its maximum below the boiling point (E)", () => {
  const heatAt = (p: number): number => saturationAtPressure("H2", p).vaporisationKJPerKg;
  expect(heatAt(30)).toBeGreaterThan(heatAt(101.325));
  expect(heatAt(30)).toBeGreaterThan(heatAt(20));
});
