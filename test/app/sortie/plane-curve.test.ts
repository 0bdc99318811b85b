/** The load over the day of lift-off, by hand where the orbit and the rocket equation say it, and the finding. */
import { describe, expect, it } from "vitest";
import type { Landing } from "../../../app/sortie/landing.ts";
import { cheaperStay, planeCurve } from "../../../app/sortie/plane-curve.ts";
import { planeSentence } from "../../../app/sortie/plane-words.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
import { burn, densities, nothingAboard, plainLander, profileOf, stay } from "./example.ts";

const site: Landing = {
  site: "Marsh",
  latitudeDeg: -30,
  longitudeDeg: 20,
  orbitKm: 100,
  inclinationDeg: 90,
  passes: "north",
  landsAfterPassDays: 0,
  dogLegLimitDeg: 0,
};
const profileFor = (days: number, landing: Landing | null = site) => ({
  ...profileOf([burn(2000, { phase: "descent" }), stay(days), burn(1900, { phase: "ascent" })]),
  landing,
});
const curveOf = (days: number, lander = plainLander) =>
  planeCurve(lander, profileFor(days), nothingAboard, { untilDays: 27.32166, steps: 8 });

describe("the curve over the lift-off day", () => {
  it("is free at lift-off at once, half a turn and a whole turn of the Moon later, and dearest between", () => {
    const loads = curveOf(3)?.points.map(({ loadKg }) => loadKg) ?? [];
    const free = 10_000 * Math.expm1(3900 / (450 * 9.80665));
    for (const i of [0, 4, 8]) expect((loads[i] ?? 0) / free).toBeCloseTo(1, 4);
    // A quarter turn later the site lies 60° off: sin(off) = cos 30° · sin 90°, and 2 · 1633.50 · sin 30° = 1633.50 m/s.
    const most = 10_000 * Math.expm1((3900 + 1633.5) / (450 * 9.80665));
    for (const i of [2, 6]) expect((loads[i] ?? 0) / most).toBeCloseTo(1, 4);
  });

  it("agrees with the sheet at each stay", () => {
    for (const { stayDays, loadKg } of curveOf(3)?.points ?? [])
      expect(loadKg).toBeCloseTo(sortieSheet(plainLander, profileFor(stayDays), nothingAboard, densities).loadKg, 3);
  });

  it("counts in what boils off and what the crew takes: half a turn later costs the stay, no more", () => {
    const leaky = { ...plainLander, tanks: plainLander.tanks.map((tank) => ({ ...tank, cKgPerDay: 10 })) };
    const loads = curveOf(3, leaky)?.points.map(({ loadKg }) => loadKg) ?? [];
    // 13.66 days at 10 kg/day from the two tanks that are not empty, carried down through the descent of 2000 m/s.
    const stayed = 13.66083 * 20 * Math.exp(2000 / (450 * 9.80665));
    expect((loads[4] ?? 0) - (loads[0] ?? 0)).toBeCloseTo(stayed, -1);
    expect(curveOf(3, leaky)?.cheapest.stayDays).toBe(0);
  });

  it("takes the stay that needs least on the ground, where what a kilogram takes there is known of every propellant", () => {
    const steps = { untilDays: 27.32166, steps: 8 };
    const leaky = { ...plainLander, tanks: plainLander.tanks.map((tank) => ({ ...tank, cKgPerDay: 10 })) };
    const loaded = sortieSheet(leaky, profileFor(3), nothingAboard, densities).lines.filter(({ loadKg }) => loadKg > 0);
    const perKg = new Map(loaded.map(({ propellantId }, place) => [propellantId, place + 1.5]));
    const curve = planeCurve(leaky, profileFor(3), nothingAboard, steps, perKg);
    const byHand = loaded.reduce((sum, { loadKg }, place) => sum + loadKg * (place + 1.5), 0);
    expect(curve?.own.launchedKg).toBeCloseTo(byHand, 6);
    const [first] = perKg.keys();
    const some = planeCurve(leaky, profileFor(3), nothingAboard, steps, new Map([[first ?? "", 2]]));
    expect(some?.own.launchedKg).toBeNull();
    expect(planeSentence({ offPlane: null }, curve!)).toMatch(
      /less propellant loaded on the ground by .* at the nearest stay that suits the orbit, 13\.66\u00a0days; least .* of all at a stay of 0/,
    );
    expect(planeSentence({ offPlane: null }, some!)).toMatch(
      /^against the profile's stay of 3\.00\u00a0days: less load by .* least load of all at a stay of 0/,
    );
  });

  it("is none without a site", () =>
    expect(planeCurve(plainLander, profileFor(3, null), nothingAboard, { untilDays: 30, steps: 4 })).toBeNull());
});

describe("a stay that costs more than a day earlier or later would", () => {
  it("is a finding that names the better day, here the one nearer to the pass", () => {
    expect(cheaperStay(plainLander, profileFor(12), nothingAboard)?.other.stayDays).toBe(13);
    expect(cheaperStay(plainLander, profileFor(2), nothingAboard)?.other.stayDays).toBe(1);
    const sheet = sortieSheet(plainLander, profileFor(12), nothingAboard, densities);
    expect(sheet.findings.some(({ kind }) => kind === "surface stay")).toBe(true);
  });
  it("is none in the plane, nor without a site", () => {
    expect(cheaperStay(plainLander, profileFor(13.66083), nothingAboard)).toBeNull();
    expect(cheaperStay(plainLander, profileFor(12, null), nothingAboard)).toBeNull();
    const sheet = sortieSheet(plainLander, profileFor(12, null), nothingAboard, densities);
    expect(sheet.checks.some(({ kind }) => kind === "surface stay")).toBe(false);
  });
});
