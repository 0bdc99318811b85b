/** The curve over the day of lift-off on paper: in kilograms from the ground where they are known of every propellant. */
import { expect, test } from "vitest";
import { planePicture } from "../../../app/picture/plane-picture.ts";
import { paperLook } from "../../../app/picture/look.ts";
import type { PlaneCurve } from "../../../app/sortie/plane-curve.ts";

const point = (stayDays: number, launchedKg: number | null): PlaneCurve["own"] => ({
  stayDays,
  offDeg: 0,
  extraMPerS: 0,
  takes: "nothing",
  loadKg: 40_000,
  launchedKg,
});

const words = (launchedKg: number | null, ofOne = launchedKg): string[] => {
  const [own, points] = [point(1, launchedKg), [point(0, ofOne), point(2, launchedKg)]];
  const { groups } = planePicture({ own, points, cheapest: own }, "t", { width: 500, height: 190 }, paperLook);
  return groups.flatMap(({ shapes }) => shapes).flatMap((shape) => (shape.kind === "text" ? [shape.text] : []));
};

test("names what it counts: on the ground, or aboard where the way of a propellant is not known", () => {
  expect(words(43_000)).toContain("Loaded on the ground for it, t");
  expect(words(43_000).some((word) => word.startsWith("43"))).toBe(true);
  expect(words(null)).toContain("Load, t");
  // One point that does not know it: nothing is mixed.
  expect(words(43_000, null)).toContain("Load, t");
  expect(words(43_000, null).some((word) => word.startsWith("40"))).toBe(true);
});
