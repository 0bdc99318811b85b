/** What a landing site off the orbit's plane takes, and burns between stated orbits, in the sheet. */
import { describe, expect, it } from "vitest";
import type { Landing } from "../../../app/sortie/landing.ts";
import type { BurnDeltaV } from "../../../app/entity/profile.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
import { burn, densities, nothingAboard, plainLander, profileOf, stay } from "./example.ts";

const site: Landing = {
  site: "Marsh",
  latitudeDeg: -60,
  longitudeDeg: 20,
  orbitKm: 100,
  inclinationDeg: 90,
  passes: "north",
  landsAfterPassDays: 0,
  dogLegLimitDeg: 2,
};
const steps = (days: number) => [
  burn(100),
  burn(2000, { name: "descent", phase: "descent" }),
  stay(days),
  burn(1900, { name: "ascent", phase: "ascent" }),
];
const sheetOf = (days: number, landing: Landing | null = site) =>
  sortieSheet(plainLander, { ...profileOf(steps(days)), landing }, nothingAboard, densities);

describe("a landing site", () => {
  it("adds nothing where it is not stated, nor in the plane at landing and lift-off", () => {
    const plain = sheetOf(3, null);
    expect(plain.offPlane).toBeNull();
    // Half a turn of the Moon against the stars later a polar orbit passes again: 27.32166 / 2 days.
    const there = sheetOf(13.66083);
    expect(there.offPlane?.liftOff.offDeg).toBeLessThan(1e-3);
    expect(there.loadKg).toBeCloseTo(sheetOf(13.66083, null).loadKg, 6);
  });

  it("lies off a polar plane by what it turned away: sin(off) = cos(latitude) · sin(turn)", () => {
    const turn = (13.17635815 * 3 * Math.PI) / 180;
    const off = (Math.asin(Math.cos(Math.PI / 3) * Math.sin(turn)) * 180) / Math.PI;
    expect(sheetOf(3).offPlane?.liftOff.offDeg).toBeCloseTo(off, 6);
    expect(sheetOf(3).offPlane?.landing.takes).toBe("nothing");
  });

  it("takes a plane change far off, with one more ignition, which the rocket equation carries to the load", () => {
    const [plain, off] = [sheetOf(3, null), sheetOf(3)];
    const { liftOff } = off.offPlane ?? {};
    expect(liftOff?.takes).toBe("plane change");
    expect(off.ignitions - plain.ignitions).toBe(1);
    // By hand: the ascent ends at the dry mass, so all burns up to it grow by the same ratio: whole Δv over Isp·g0.
    const extra = 2 * 1633.5 * Math.sin(((liftOff?.offDeg ?? 0) * Math.PI) / 360);
    const byHand = 10_000 * Math.exp((100 + 2000 + 1900 + extra) / (450 * 9.80665)) - 10_000;
    expect(off.loadKg / byHand).toBeCloseTo(1, 5);
    expect(off.closure).toBeLessThan(1e-9);
  });

  it("takes a dog-leg near the plane, and never more than the plane change there", () => {
    // A gentle ascent of some ten minutes: at full thrust these engines are through before they have moved aside.
    const gentle = steps(0.05).map((step) => (step.kind === "burn" ? { ...step, throttle: 0.25 } : step));
    const profile = { ...profileOf(gentle), landing: site };
    const near = sortieSheet(plainLander, profile, nothingAboard, densities).offPlane?.liftOff;
    expect(near?.takes).toBe("dog-leg");
    expect(near?.mPerS).toBeLessThanOrEqual(near?.planeChangeMPerS ?? 0);
    expect(near?.mPerS).toBeGreaterThan(0);
  });

  it("costs at landing too where it lands after the pass, as much off as after a stay of as long", () => {
    const late = sheetOf(0, { ...site, landsAfterPassDays: 3 });
    expect(late.offPlane?.landing.offDeg).toBeCloseTo(sheetOf(3).offPlane?.liftOff.offDeg ?? 0, 6);
  });

  it("that the orbit never passes within the dog-leg is refused by name and number", () => {
    const low = { ...site, inclinationDeg: 50 };
    expect(() => sheetOf(3, low)).toThrow(/50° inclination never passes nearer than 10\.0° to the landing site Marsh/u);
    expect(() => sheetOf(3, { ...low, dogLegLimitDeg: 10 })).not.toThrow();
  });

  it("of a profile that does not land is refused", () => {
    const profile = { ...profileOf([burn(100)]), landing: site };
    expect(() => sortieSheet(plainLander, profile, nothingAboard, densities)).toThrow(
      /no step is an ascent after a descent/u,
    );
  });
});

describe("a burn between two orbits", () => {
  const transfer = (more: Partial<Extract<BurnDeltaV, { kind: "computed transfer" }>>): number => {
    const deltaV: BurnDeltaV = {
      kind: "computed transfer",
      from: { periapsisKm: 100, apoapsisKm: 100 },
      to: { periapsisKm: 15, apoapsisKm: 100 },
      turnDeg: 0,
      split: "best",
      burn: "departure",
      allowanceMPerS: 0,
      stated: { mPerS: 1, basis: "not used" },
      ...more,
    };
    const profile = profileOf([burn(0, { deltaV })]);
    return sortieSheet(plainLander, profile, nothingAboard, densities).totalDeltaVMPerS;
  };

  // F, check values: 100 km to 100 × 15 km takes 19.455 m/s; recomputed outside this project.
  it("takes what the check values say", () =>
    expect(transfer({}) + transfer({ burn: "capture" })).toBeCloseTo(19.455, 2));

  it("with an allowance takes so much more, and what is stated beside is not used", () => {
    expect(transfer({ allowanceMPerS: 5 }) - transfer({})).toBeCloseTo(5, 9);
    expect(transfer({ stated: null })).toBe(transfer({}));
  });

  it("that only turns the plane takes twice the speed times the sine of half the angle", () =>
    // 2 · 1633.50 · sin 5°.
    expect(transfer({ burn: "plane change", turnDeg: 10 })).toBeCloseTo(284.74, 1));

  it("lands nowhere: as a descent it is refused", () => {
    const deltaV: BurnDeltaV = {
      kind: "computed transfer",
      from: { periapsisKm: 100, apoapsisKm: 100 },
      to: { periapsisKm: 15, apoapsisKm: 100 },
      turnDeg: 0,
      split: "best",
      burn: "departure",
      allowanceMPerS: 0,
      stated: null,
    };
    const profile = profileOf([burn(0, { deltaV, phase: "descent" })]);
    expect(() => sortieSheet(plainLander, profile, nothingAboard, densities)).toThrow(/its phase must be transfer/u);
  });
});
