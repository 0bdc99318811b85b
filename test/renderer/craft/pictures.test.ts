/** The plots of the sortie sheet as golden pictures. */
import { expect, test } from "vitest";
import { heronCached, heronIntegrated, heronLander, heronMission } from "../../../app/demo/heron.ts";
import { tarnPropellants } from "../../../app/demo/tarn-hardware.ts";
import { sortieSheet } from "../../../app/sortie/sheet.ts";
import { toSvg } from "../../../app/picture/svg.ts";
import { flightPicture } from "../../../renderer/craft/profile/flight-picture.ts";
import { screenLook } from "../../../app/picture/look.ts";
import { sortieMassPicture } from "../../../app/picture/sortie-mass-picture.ts";
import { expectGolden, goldenTheme } from "../golden/golden.ts";

const size = { width: 640, height: 240 };
const sheetOf = (profile: typeof heronCached) => sortieSheet(heronLander, profile, heronMission, tarnPropellants);

test("mass by leg, with a cache left and taken up", () => {
  const picture = sortieMassPicture(sheetOf(heronCached), tarnPropellants, "auto", size, screenLook);
  expect(picture).toMatchObject(size);
  expectGolden("sortie-mass", toSvg(picture, goldenTheme));
});

test("an integrated descent with its vertical phase", () => {
  const flown = sheetOf(heronIntegrated).legs.find((leg) => leg.name === "descent and landing")?.flown;
  expect(flown?.samples.at(-1)?.heightM).toBeCloseTo(0, 6);
  // Thinned: the samples of an adaptive integration differ in their last digits from one machine to the next.
  const thinned = flown!.samples.filter((_, i) => i % 8 === 0);
  expectGolden(
    "sortie-descent",
    toSvg(flightPicture({ ...flown!, samples: thinned }, { ...size, height: 280 }), goldenTheme),
  );
});

test("nothing is drawn outside the picture", () => {
  const { groups } = sortieMassPicture(sheetOf(heronCached), tarnPropellants, "auto", size, screenLook);
  const points = groups.flatMap(({ shapes }) =>
    shapes.flatMap((shape) => (shape.kind === "path" || shape.kind === "area" ? Array.from(shape.points) : [])),
  );
  expect(Math.min(...points)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...points)).toBeLessThanOrEqual(size.width);
});
