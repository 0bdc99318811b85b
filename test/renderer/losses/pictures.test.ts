/** The pictures of the Losses view as golden pictures; and that nothing leaves the frame. */
import { describe, expect, test } from "vitest";
import { fitRate } from "../../../app/losses/fit/fit-rate.ts";
import type { TankFit } from "../../../app/losses/fit/fit-tank.ts";
import type { StatementSums } from "../../../app/ledger/statement-sums.ts";
import { heatBudget } from "../../../app/storage/heat-budget.ts";
import type { Picture } from "../../../app/picture/shape.ts";
import { toSvg } from "../../../app/picture/svg.ts";
import { heatHeight, heatPicture, heatWords } from "../../../renderer/heat/heat-picture.ts";
import { levelPicture } from "../../../renderer/losses/level-picture.ts";
import { screenLook } from "../../../app/picture/look.ts";
import { lossPicture } from "../../../app/picture/loss-picture.ts";
import { expectGolden, goldenTheme } from "../golden/golden.ts";

const DAY = 86_400_000;
const START_AT = Date.UTC(2031, 0, 1);

const expectWithin = ({ width, height, groups }: Picture): void => {
  for (const shape of groups.flatMap(({ shapes }) => shapes)) {
    const points = shape.kind === "path" || shape.kind === "area" ? Array.from(shape.points) : [];
    const xs = points.filter((_, i) => i % 2 === 0);
    const ys = points.filter((_, i) => i % 2 === 1);
    for (const x of xs) expect(x).toBeGreaterThanOrEqual(-0.5);
    for (const x of xs) expect(x).toBeLessThanOrEqual(width + 0.5);
    for (const y of ys) expect(y).toBeGreaterThanOrEqual(-0.5);
    for (const y of ys) expect(y).toBeLessThanOrEqual(height + 0.5);
  }
};

const budget = heatBudget({
  kind: "heat balance",
  fluid: "H2",
  pressureKPa: 101.325,
  insulation: { kind: "flux", areaM2: 100, fluxWPerM2: 0.3, note: "" },
  paths: [
    { cause: "penetration", label: "Fill and vent lines", heatW: 14, note: "" },
    { cause: "support", label: "Struts of glass fibre, twelve of them", heatW: 18, note: "" },
  ],
  environmentFactor: 1.25,
  coolers: [
    { name: "A", lift: [{ temperatureK: 20, liftW: 30 }], powerW: 2000, massKg: 120, isRunning: true, note: "" },
  ],
});

describe("heat budget", () => {
  test.each([
    ["wide", 640, false],
    ["narrow", 270, true],
  ] as const)("%s", (name, width, isNarrow) => {
    const picture = heatPicture(budget, { width, height: heatHeight(budget, isNarrow) }, isNarrow);
    expectWithin(picture);
    expectGolden(`losses-heat-${name}`, toSvg(picture, goldenTheme));
  });

  test("in words: paths, environment, lift and what boils", () => {
    // 30 + 14 + 18 W, a quarter more by the environment, less 30 W of lift: 47.5 W.
    expect(heatWords(budget)).toContain("Environment × 1.25 15.50 W");
    expect(heatWords(budget)).toContain("Lifted by coolers −30.00 W, Boils propellant 47.50 W");
  });
});

const month = (place: number, change: Partial<StatementSums>): StatementSums => ({
  fromAt: Date.UTC(2031, place, 1),
  untilAt: Date.UTC(2031, place + 1, 1),
  depotId: "tarn",
  propellantId: "hydrogen",
  openingGrams: 0,
  receivedGrams: 0,
  drawnGrams: 0,
  boilOffGrams: 0,
  handoverLossGrams: 0,
  ventedGrams: 0,
  unaccountedGrams: 0,
  closingGrams: 0,
  ...change,
});

describe("loss by cause", () => {
  const labelOf = (at: number): string => new Date(at).toISOString().slice(0, 7);
  test("stacked, found again hangs below the line", () => {
    const months = [
      month(0, { boilOffGrams: 240_000, handoverLossGrams: 20_000 }),
      month(1, { boilOffGrams: 300_000, ventedGrams: 90_000, unaccountedGrams: 30_000 }),
      month(2, { boilOffGrams: 260_000, unaccountedGrams: -80_000 }),
    ];
    const picture = lossPicture({ months, labelOf, ink: "propellant-0" }, { width: 640, height: 220 }, screenLook);
    expectWithin(picture);
    expectGolden("losses-months", toSvg(picture, goldenTheme));
  });

  test("sixty months stay within, and their labels apart", () => {
    const months = Array.from({ length: 60 }, (_, i) => month(i, { boilOffGrams: 1000 * i }));
    const picture = lossPicture({ months, labelOf, ink: "propellant-0" }, { width: 640, height: 220 }, screenLook);
    expectWithin(picture);
    const labels = picture.groups[0]!.shapes.flatMap((shape) =>
      shape.kind === "text" && /^\d{4}-\d\d$/.test(shape.text) ? [shape.x] : [],
    );
    for (const [i, x] of labels.slice(1).entries()) expect(x - labels[i]!).toBeGreaterThan(45);
  });

  test("no losses at all is a picture too", () => {
    const picture = lossPicture(
      { months: [month(0, {})], labelOf, ink: "propellant-0" },
      { width: 300, height: 220 },
      screenLook,
    );
    expectWithin(picture);
    expect(JSON.stringify(picture)).not.toContain("null,null");
  });
});

const fitted = (): TankFit => {
  const offs = [40, -35, 10, 55, -400, -20, 5];
  const readings = offs.map((off, i) => ({
    id: `r${i}`,
    tankId: "t",
    at: START_AT + i * 15 * DAY,
    massKg: 8000 - i * 15 * 12 + (i > 2 ? 4000 : 0) + off,
    sigmaKg: 50,
    entryId: null,
    isWithdrawn: false,
    note: "",
  }));
  const transferAt = START_AT + 40 * DAY;
  const fit = fitRate({
    readings,
    transfers: [{ at: transferAt, massKg: 4000 }],
    fromAt: 0,
    untilAt: START_AT + 200 * DAY,
    holdsKg: 20_000,
    fitted: "c",
    rate: { kPerDay: 0, cKgPerDay: 10 },
    leftOutIds: [],
  });
  const segment = { kPerDay: 0, cKgPerDay: 10, fKgPerDay: 0 };
  return {
    ...fit,
    inForce: { kPerDay: 0, cKgPerDay: 10, reason: "by hand" },
    apartSpans: [],
    predicted: [
      { ...segment, startAt: START_AT, endAt: transferAt, m0Kg: 8040 },
      { ...segment, startAt: transferAt, endAt: fit.lastAt, m0Kg: 8040 - 400 + 4000 },
    ],
  };
};

test("measured, predicted and fitted level; a flagged reading is ringed", () => {
  const fit = fitted();
  expect(fit.flagged).toBe(1);
  const picture = levelPicture({ fit, ink: "propellant-0", unit: "auto" }, { width: 760, height: 380 });
  expectWithin(picture);
  expectGolden("losses-level", toSvg(picture, goldenTheme));
});
