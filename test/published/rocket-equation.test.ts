/** The rocket equation against a textbook, a museum's figures, and values recomputed elsewhere. */
import { expect, test } from "vitest";
import { heronDirect, heronLander, heronMission } from "../../app/demo/heron.ts";
import { STANDARD_GRAVITY } from "../../app/ground/quantity.ts";
import { deltaVMPerS, massRatio } from "../../app/sortie/rocket-equation.ts";
import { sortieSheet } from "../../app/sortie/sheet.ts";
import { densities } from "../app/sortie/example.ts";

const ispOf = (exhaustMPerS: number): number => exhaustMPerS / STANDARD_GRAVITY;

// P: OpenStax College Physics, section 8.7 "Introduction to Rocket Propulsion", text and problems.
test("the ratio that takes 11.2 km/s at 2.5 km/s exhaust is 88", () => {
  expect(massRatio(11_200, ispOf(2500))).toBeCloseTo(88.235, 2);
});

test("a 4000 kg probe that expels 3500 kg at 2.00 km/s gains 4.16 km/s", () => {
  expect(deltaVMPerS(ispOf(2000), 4000, 500)).toBeCloseTo(4158.88, 2);
});

test("20 t that expel 40.0 kg at 8.00e6 m/s gain 1.60e4 m/s", () => {
  expect(deltaVMPerS(ispOf(8e6), 20_000, 19_960)).toBeCloseTo(1.6e4, -2);
});

test("5000 kg that expel 8.00 kg/s at 2.20 km/s leave the Moon (g 1.6) at 1.92 m/s²", () => {
  const thrustN = 8 * 2200;
  expect(thrustN / 5000 - 1.6).toBeCloseTo(1.92, 2);
});

// P: Smithsonian National Air and Space Museum, the lunar module of the first landing: empty 3920 kg, with crew and
// propellant 14,700 kg. Two stages, so only a bound: one stage of that mass ratio at a storable engine's 311 s (M)
// could land or return, not both by the budget of the later table.
test("the first lunar module's masses give between one and two landings' worth of Δv", () => {
  const oneStage = deltaVMPerS(311, 14_700, 3920);
  expect(oneStage).toBeGreaterThan(2076);
  expect(oneStage).toBeLessThan(2076 + 1874 + 200);
});

// F: closed form, recomputed outside this project.
test.each([
  [2920, 450, 1.93805],
  [2920, 340, 2.40069],
  [5738, 450, 3.67022],
])("%d m/s at %d s is a mass ratio of %d", (speed, isp, ratio) => {
  expect(massRatio(speed, isp)).toBeCloseTo(ratio, 5);
});

// C: common practice, no source.
test("a single-stage hydrogen lander of about 60 t full with a tonne of cargo takes 40 to 50 t", () => {
  const sheet = sortieSheet(heronLander, heronDirect, heronMission, densities);
  expect(sheet.startMassKg).toBeGreaterThan(54_000);
  expect(sheet.startMassKg).toBeLessThan(66_000);
  expect(sheet.loadKg).toBeGreaterThan(40_000);
  expect(sheet.loadKg).toBeLessThan(50_000);
});
