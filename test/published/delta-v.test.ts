/** Orbits of the Moon and the Δv between them, against closed forms computed outside and a published budget. */
import { expect, test } from "vitest";
import { apsisChangeMPerS, circularSpeedMPerS, ellipseSpeedMPerS, impulsiveLimitMPerS } from "../../app/sortie/moon.ts";
import { flyAscent } from "../../app/sortie/powered/ascent.ts";
import { flyDescent } from "../../app/sortie/powered/descent.ts";

// F: μ 4902.800 km³/s², R 1737.4 km, recomputed outside this project.
test("a circular orbit at 100 km has 1633.50 m/s", () => {
  expect(circularSpeedMPerS(100_000)).toBeCloseTo(1633.5, 1);
});

test("the transfer to 100 × 15 km takes 19.455 m/s and passes perilune at 1692.34 m/s", () => {
  expect(apsisChangeMPerS(100_000, 15_000)).toBeCloseTo(19.455, 2);
  expect(ellipseSpeedMPerS(15_000, 15_000, 100_000)).toBeCloseTo(1692.34, 1);
});

test("the impulsive limit from 100 km is 23.0 + 1703.2 = 1726.2 m/s", () => {
  expect(apsisChangeMPerS(100_000, 0)).toBeCloseTo(23, 1);
  expect(ellipseSpeedMPerS(0, 100_000, 0)).toBeCloseTo(1703.2, 1);
  expect(impulsiveLimitMPerS(100_000)).toBeCloseTo(1726.2, 1);
});

// P: Evans and Graham, "A Flexible Lunar Architecture for Exploration", Acta Astronautica 177
// (2020) 351, doi 10.1016/j.actaastro.2020.07.032, table 4: low lunar orbit (100 km) → surface 2.180 km/s and back 1.968,
// both with 5 %. The budget holds approach, redesignation and hover, which a gravity turn does not: it must lie above.
test("the published budget lies above the integrated descent and ascent, by what the vertical phase and allowance cover", () => {
  const engine = { acceleration: 3 * 1.62, throttle: 1, ispAt: () => 450 };
  const down = flyDescent({ orbitHeightM: 100_000, touchdownMPerS: 1, vertical: null }, engine);
  const up = flyAscent({ orbitHeightM: 100_000, riseM: 50 }, engine);
  const downGap = 2180 / 1.05 - (down?.deltaVMPerS ?? 0);
  const upGap = 1968 / 1.05 - (up?.deltaVMPerS ?? 0);
  expect(downGap).toBeGreaterThan(0);
  expect(downGap).toBeLessThan(400);
  expect(upGap).toBeGreaterThan(0);
  expect(upGap).toBeLessThan(150);
});
