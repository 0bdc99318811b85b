/** The fit recovers the rate of simulated readings, its interval holds what it says, and it says what it cannot tell. */
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { describe, expect, test } from "vitest";
import { adoptFit } from "../../../../app/losses/fit/adopt-fit.ts";
import { fitRate } from "../../../../app/losses/fit/fit-rate.ts";
import type { FitRequest } from "../../../../app/losses/fit/observations.ts";
import { lossPeriod } from "../../../../app/entity/loss-period.ts";
import {
  asTransfers,
  DAY,
  gaussian,
  readingAt,
  seeded,
  type SimulatedTank,
  START_AT,
  trueLevels,
} from "./simulated-gauge.ts";

const tank: SimulatedTank = {
  m0Kg: 30_000,
  kPerDay: 0.0013,
  cKgPerDay: 8,
  transfers: [
    [20.5, 14_000],
    [61.25, -18_000],
    [85, 12_000],
  ],
};
const days = Array.from({ length: 40 }, (_, i) => i * 3 + (i % 3) / 7);
const levels = trueLevels(tank, days);

const request = (change: Partial<FitRequest>): FitRequest => ({
  readings: [],
  transfers: asTransfers(tank),
  fromAt: START_AT,
  untilAt: START_AT + 200 * DAY,
  holdsKg: 60_000,
  fitted: "k and c",
  rate: { kPerDay: 0.001, cKgPerDay: 5 },
  leftOutIds: [],
  ...change,
});

const readingsWith = (noise: (i: number) => number, sigma = 60) =>
  days.map((day, i) => readingAt(i, day, levels[i]! + noise(i), sigma));

describe("without noise the truth comes back, whatever is fitted", () => {
  const exact = readingsWith(() => 0);
  test.each([
    ["k", { kPerDay: 0.004, cKgPerDay: 8 }],
    ["c", { kPerDay: 0.0013, cKgPerDay: 0 }],
    ["k and c", { kPerDay: 0, cKgPerDay: 0 }],
    ["k and c", { kPerDay: 0.02, cKgPerDay: 200 }],
  ] as const)("%s", (fitted, rate) => {
    const fit = fitRate(request({ readings: exact, fitted, rate }));
    // Instants are whole milliseconds, which moves a level by at most 1e-6 kg.
    expect(fit.kPerDay).toBeCloseTo(0.0013, 9);
    expect(fit.cKgPerDay).toBeCloseTo(8, 4);
    expect(fit.m0Kg).toBeCloseTo(30_000, 3);
    expect(fit.reducedChiSquare).toBeLessThan(1e-12);
  });
});

test("the decaying stock of Ghare and Schrader (1963; figures F): θ and D come back from I(0), I(30) and the day it is empty", () => {
  const readings = [readingAt(0, 0, 1000, 1), readingAt(1, 30, 815.438227, 1), { ...readingAt(2, 178.219246, 0, 1) }];
  const fit = fitRate(request({ readings, transfers: [], rate: { kPerDay: 0, cKgPerDay: 1 } }));
  expect(fit.kPerDay).toBeCloseTo(0.00127, 7);
  expect(fit.cKgPerDay).toBeCloseTo(5, 5);
  expect(fit.degreesOfFreedom).toBe(0);
  expect(fit.reducedChiSquare).toBeNull();
  expect(fit.messages.join(" ")).toContain("no reading to spare");
  expect(fit.cannotAdoptBecause).toContain("cannot tell k from c");
});

describe("against the Levenberg–Marquardt of ml-levenberg-marquardt on a model written out here", () => {
  // One span, no transfers, so that the model is one line of another form: m(t) = (m0 + c/k)·e^(−kt) − c/k.
  const uniform = seeded(11);
  const plain: SimulatedTank = { m0Kg: 40_000, kPerDay: 0.01, cKgPerDay: 30, transfers: [] };
  const truth = trueLevels(plain, days);
  const readings = days.map((day, i) => readingAt(i, day, truth[i]! + 50 * gaussian(uniform), 50));

  test("the same k and c, to a hundredth of their uncertainty", () => {
    const fit = fitRate(request({ readings, transfers: [], rate: { kPerDay: 0.005, cKgPerDay: 10 } }));
    const timeDays = readings.map((reading) => (reading.at - START_AT) / DAY);
    // In tonnes, percent a day and tens of kg a day, so that its damping weighs the three alike.
    const { parameterValues } = levenbergMarquardt(
      { x: timeDays, y: readings.map((reading) => reading.massKg / 1000) },
      ([m0, k, c]) =>
        (t) =>
          (m0! + c! / k!) * Math.exp((-k! * t) / 100) - c! / k!,
      {
        initialValues: [39, 0.5, 1],
        damping: 1e-3,
        maxIterations: 400,
        centralDifference: true,
        gradientDifference: 1e-5,
        errorTolerance: 1e-12,
      },
    );
    expect(Math.abs(fit.m0Kg / 1000 - parameterValues[0]!)).toBeLessThan(1e-4);
    const kSigma = (fit.kInterval!.high - fit.kInterval!.low) / 4;
    const cSigma = (fit.cInterval!.high - fit.cInterval!.low) / 4;
    expect(Math.abs(fit.kPerDay - parameterValues[1]! / 100)).toBeLessThan(kSigma / 100);
    expect(Math.abs(fit.cKgPerDay - parameterValues[2]! * 10)).toBeLessThan(cSigma / 100);
  });
});

describe("2,000 seeded trials: the 95 % interval covers the truth in 95 ± 1.5 %, even if σ is stated too small", () => {
  test.each([
    ["k", 60, 60],
    ["c", 60, 60],
    ["k and c", 60, 60],
    ["k", 60, 30],
  ] as const)("fitting %s, true σ %d kg, stated %d kg", (fitted, trueSigma, statedSigma) => {
    const uniform = seeded(20_310_101);
    const trials = 2000;
    const covered = { k: 0, c: 0, loss: 0 };
    let sumK = 0;
    let sumC = 0;
    const meanLevel = levels.reduce((sum, level) => sum + level, 0) / levels.length;
    for (let trial = 0; trial < trials; trial++) {
      const readings = readingsWith(() => trueSigma * gaussian(uniform), statedSigma);
      const fit = fitRate(request({ readings, fitted, rate: { kPerDay: 0.0013, cKgPerDay: 8 } }));
      const holds = (interval: { low: number; high: number } | null, truth: number): number =>
        interval !== null && interval.low <= truth && truth <= interval.high ? 1 : 0;
      covered.k += holds(fit.kInterval, 0.0013);
      covered.c += holds(fit.cInterval, 8);
      covered.loss += holds(fit.lossInterval, 0.0013 * meanLevel + 8);
      sumK += fit.kPerDay;
      sumC += fit.cKgPerDay;
    }
    const within = (count: number): void => {
      expect(count / trials).toBeGreaterThan(0.935);
      expect(count / trials).toBeLessThan(0.965);
    };
    if (fitted !== "c") within(covered.k);
    if (fitted !== "k") within(covered.c);
    within(covered.loss);
    // No bias: the mean of so many lies within 1 % of the truth where one part is fitted.
    if (fitted !== "k and c") {
      expect(sumK / trials).toBeCloseTo(0.0013, 4);
      expect(Math.abs(sumC / trials - 8)).toBeLessThan(0.08);
    }
  });
});

describe("few readings: the interval is never narrower than the stated σ makes it", () => {
  const sparse = days.filter((_, i) => i % 7 === 0);
  const sparseLevels = trueLevels(tank, sparse);
  const fitOf = (uniform: () => number, trueSigma: number) =>
    fitRate(
      request({
        readings: sparse.map((day, i) => readingAt(i, day, sparseLevels[i]! + trueSigma * gaussian(uniform), 60)),
        fitted: "k",
        rate: { kPerDay: 0.0013, cKgPerDay: 8 },
      }),
    );
  const holds = ({ kInterval }: ReturnType<typeof fitOf>): boolean =>
    kInterval!.low <= 0.0013 && 0.0013 <= kInterval!.high;

  /** `COLDSTOCK_TRIALS=20000` tries more. */
  const TRIALS = Number(process.env["COLDSTOCK_TRIALS"] ?? 8000);

  test(`${TRIALS} seeded trials of 6 readings: 95 ± 1.5 % in all, and among those with reduced χ² under 0.3`, () => {
    const uniform = seeded(20_310_102);
    const fits = Array.from({ length: TRIALS }, () => fitOf(uniform, 60));
    const share = (some: typeof fits): number => some.filter(holds).length / some.length;
    const close = fits.filter((fit) => fit.reducedChiSquare! < 0.3);
    expect(fits[0]!.degreesOfFreedom).toBe(4);
    // χ² of 4 degrees of freedom lies under 1.2 in 12.2 % of all cases: 1 − 1.6·e^(−0.6).
    expect(close.length / fits.length).toBeCloseTo(0.122, 1.9);
    for (const found of [share(fits), share(close)]) {
      expect(found).toBeGreaterThan(0.935);
      expect(found).toBeLessThan(0.965);
    }
  });

  test("readings that lie on the curve leave the interval as wide as σ says; its width is known in closed form", () => {
    const flat: SimulatedTank = { m0Kg: 20_000, kPerDay: 0, cKgPerDay: 10, transfers: [] };
    const five = [0, 10, 20, 30, 40];
    const readings = five.map((day) => readingAt(day, day, trueLevels(flat, [day])[0]!, 60));
    const fit = fitRate(request({ readings, transfers: [], fitted: "c", rate: { kPerDay: 0, cKgPerDay: 10 } }));
    // A straight line: the slope's standard error is σ/√Σ(t − t̄)² = 60/√1000.
    expect(fit.cInterval!.high - fit.cKgPerDay).toBeCloseTo((1.959_964 * 60) / Math.sqrt(1000), 5);
  });
});

describe("what it says", () => {
  const noisy = (seed: number, sigma = 60) => {
    const uniform = seeded(seed);
    return readingsWith(() => 60 * gaussian(uniform), sigma);
  };

  test("a reading beyond 4 σ is flagged and still counts; left out it does not", () => {
    const readings = noisy(3).map((reading, i) => (i === 17 ? { ...reading, massKg: reading.massKg + 600 } : reading));
    const fit = fitRate(request({ readings, fitted: "k" }));
    expect(fit.readings.filter((each) => each.isFlagged).map((each) => each.readingId)).toEqual(["r17"]);
    expect(fit.readings).toHaveLength(40);
    expect(fit.messages.join(" ")).toContain("One reading lies beyond 4 σ");
    const without = fitRate(request({ readings, fitted: "k", leftOutIds: ["r17"] }));
    expect(without.readings).toHaveLength(39);
    expect(without.flagged).toBe(0);
  });

  test("a gauge stated too well is said to scatter more, and too badly, less", () => {
    expect(fitRate(request({ readings: noisy(4, 20), fitted: "c" })).messages.join(" ")).toContain("scatter more");
    expect(fitRate(request({ readings: noisy(4, 300), fitted: "c" })).messages.join(" ")).toContain("scatter less");
  });

  test("readings at one level cannot tell k from c, and the fit may not be adopted; c alone may", () => {
    const uniform = seeded(5);
    const flat: SimulatedTank = { m0Kg: 20_000, kPerDay: 0, cKgPerDay: 10, transfers: [] };
    const levelsFlat = trueLevels(flat, days);
    const readings = days.map((day, i) => readingAt(i, day, levelsFlat[i]! + 60 * gaussian(uniform), 60));
    const both = fitRate(request({ readings, transfers: [], rate: { kPerDay: 0, cKgPerDay: 10 } }));
    expect(both.correlation).toBeLessThan(-0.99);
    expect(both.messages.join(" ")).toContain("cannot tell k from c");
    expect(both.cannotAdoptBecause).toContain("Fit one of the two");
    // What is known well all the same: the loss at this level.
    expect(both.lossInterval.low).toBeLessThan(10);
    expect(both.lossInterval.high).toBeGreaterThan(10);
    expect(both.lossInterval.high - both.lossInterval.low).toBeLessThan(3);
    const one = fitRate(request({ readings, transfers: [], fitted: "c", rate: { kPerDay: 0, cKgPerDay: 10 } }));
    expect(one.cannotAdoptBecause).toBeNull();
  });

  test("the band encloses the fit, is narrow inside, and has both sides of every transfer", () => {
    const fit = fitRate(request({ readings: noisy(6), fitted: "c" }));
    for (const point of fit.curve) {
      expect(point.lowKg).toBeLessThanOrEqual(point.levelKg);
      expect(point.highKg - point.levelKg).toBeLessThan(60);
    }
    const jumpAt = START_AT + 20.5 * DAY;
    const sides = fit.curve.filter((point) => Math.abs(point.at - jumpAt) <= 2);
    expect(sides[1]!.levelKg - sides[0]!.levelKg).toBeCloseTo(14_000, 3);
  });

  test("an adopted fit is a loss period that a ledger takes, from its date on", () => {
    const fit = fitRate(request({ readings: noisy(7), fitted: "k" }));
    const period = adoptFit(fit, {
      id: "lp-1",
      tankId: "tank",
      planCaseId: null,
      fromAt: START_AT,
      reason: "measured",
    });
    expect(lossPeriod.parse(period)).toEqual(period);
    expect(period.basis).toMatchObject({ kind: "measured", cKgPerDay: 5, readings: 40, cInterval: null });
  });
});

describe("what it refuses", () => {
  const good = readingsWith(() => 0);
  const change = (place: number, to: object) =>
    good.map((reading, i) => (i === place ? { ...reading, ...to } : reading));

  test.each([
    ["zero sigma", change(5, { sigmaKg: 0 }), /has no uncertainty/],
    ["a mass that is none", change(5, { massKg: Number.NaN }), /is not a mass/],
    ["a level above the tank", change(5, { massKg: 61_000 }), /above what the tank holds \(60000 kg\)/],
    ["two at one instant", change(5, { at: good[6]!.at }), /two readings at 2031-01-19/],
    ["two readings for k and c", good.slice(0, 2), /Two readings cannot tell k from c/],
    ["one reading", good.slice(0, 1), /too few readings/],
    ["none", [], /too few readings/],
    ["only withdrawn ones", good.map((reading) => ({ ...reading, isWithdrawn: true })), /too few readings/],
  ])("%s", (_, readings, message) => {
    expect(() => fitRate(request({ readings }))).toThrow(message);
  });

  test("out of order is put in order, and said", () => {
    const fit = fitRate(request({ readings: good.toReversed() }));
    expect(fit.messages.join(" ")).toContain("put in order");
    expect(fit.kPerDay).toBeCloseTo(0.0013, 8);
  });

  test("a rising level is not a loss: no adoption", () => {
    const readings = days.map((day, i) => readingAt(i, day, 10_000 + 5 * day, 20));
    const fit = fitRate(request({ readings, transfers: [], fitted: "c", rate: { kPerDay: 0, cKgPerDay: 1 } }));
    expect(fit.cKgPerDay).toBeCloseTo(-5, 4);
    expect(fit.cannotAdoptBecause).toContain("c came out below 0");
    expect(fit.messages.join(" ")).toContain("do not prove a loss");
    expect(() => adoptFit(fit, { id: "x", tankId: "t", planCaseId: null, fromAt: 0, reason: "r" })).toThrow(/below 0/);
  });
});
