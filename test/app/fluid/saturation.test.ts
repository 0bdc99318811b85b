/** The interpolation's stated bound, shown by leaving every second state out; and the ends of the tables. */
import { assert, double, property } from "fast-check";
import { describe, expect, test } from "vitest";
import type { Fluid } from "../../../app/fluid/fluid.ts";
import {
  pressureAtLiquidDensity,
  type SaturationState,
  saturationAtPressure,
  saturationLine,
} from "../../../app/fluid/saturation.ts";
import { type SaturationRow, saturationRows } from "../../../app/fluid/saturation-data.ts";

/**
 * What interpolation may add to the tables' own error, as `saturationLine` says. It is the error found at every second state
 * when it is left out, so at twice the spacing.
 */
const BOUND = { relative: 1e-4, energyKJPerKg: 0.01 };

const fluids: readonly Fluid[] = ["H2", "O2", "CH4"];

const worstErrors = (rows: readonly SaturationRow[], states: (p: number) => SaturationState) => {
  let relative = 0;
  let energy = 0;
  for (const [p, t, liquid, vapour, heat, liquidEnergy, vapourEnergy] of rows) {
    const s = states(p);
    const shares = [
      s.temperatureK / t,
      s.liquidKgPerM3 / liquid,
      s.vapourKgPerM3 / vapour,
      s.vaporisationKJPerKg / heat,
    ];
    relative = Math.max(relative, ...shares.map((share) => Math.abs(share - 1)));
    energy = Math.max(
      energy,
      Math.abs(s.liquidEnergyKJPerKg - liquidEnergy),
      Math.abs(s.vapourEnergyKJPerKg - vapourEnergy),
    );
  }
  return { relative, energy };
};

describe.each(fluids)("%s", (fluid) => {
  test.each([0, 1])("states left out (every second, from %d) come back within the bound", (parity) => {
    const rows = saturationRows[fluid];
    // The ends stay: beyond them nothing is interpolated.
    const kept = rows.filter((_, i) => i % 2 === parity || i === 0 || i === rows.length - 1);
    const left = rows.filter((row) => !kept.includes(row));
    expect(left.length).toBeGreaterThan(20);
    const line = saturationLine(kept);
    const worst = worstErrors(left, (p) => line.atPressure(p));
    expect(worst.relative).toBeLessThan(BOUND.relative);
    expect(worst.energy).toBeLessThan(BOUND.energyKJPerKg);
    // A spline that ignored its rows could not pass, and the bound is not a careless one.
    expect(worst.relative).toBeGreaterThan(1e-8);
  });

  test("passes through the tabulated states", () => {
    const worst = worstErrors(saturationRows[fluid], (p) => saturationAtPressure(fluid, p));
    expect(worst.relative).toBeLessThan(1e-13);
    expect(worst.energy).toBeLessThan(1e-10);
  });

  test("temperature and vapour density rise, liquid density falls, everywhere between", () => {
    let before = saturationAtPressure(fluid, 20);
    for (let p = 20.5; p <= 800; p += 0.5) {
      const here = saturationAtPressure(fluid, p);
      expect(here.temperatureK).toBeGreaterThan(before.temperatureK);
      expect(here.vapourKgPerM3).toBeGreaterThan(before.vapourKgPerM3);
      expect(here.liquidKgPerM3).toBeLessThan(before.liquidKgPerM3);
      before = here;
    }
  });

  test("asked by liquid density, the same state comes back", () => {
    assert(
      property(double({ min: 20, max: 800, noNaN: true }), (p) => {
        const state = saturationAtPressure(fluid, p);
        const byDensity = pressureAtLiquidDensity(fluid, state.liquidKgPerM3) ?? Number.NaN;
        expect(Math.abs(byDensity / p - 1)).toBeLessThan(1e-10);
      }),
    );
  });

  test.each([19.99, 800.01, Number.NaN, -1])("%d kPa lies outside and is said to", (p) => {
    expect(() => saturationAtPressure(fluid, p)).toThrow(/reach from 20 to 800 kPa/);
  });
});
