/**
 * Distributions against their closed forms: mean, median and ninth decile of 200,000 draws, within 4 standard errors.
 * Figures of the exponential, log-normal and triangular laws: closed forms of any statistics text, recomputed.
 */
import { describe, expect, test } from "vitest";
import type { SlipLaw } from "../../../app/entity/risk-input.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { drawFactors, drawLossProbabilities } from "../../../app/risk/factor-column.ts";
import { normalQuantile } from "../../../app/risk/normal.ts";
import { drawSlips, slipSampler } from "../../../app/risk/slip-column.ts";
import { quantileOfAll } from "../../../app/risk/slip-law.ts";
import { BLOCK, keyHash, seedStream } from "../../../app/risk/stream.ts";

const BLOCKS = 3125;
const N = BLOCKS * BLOCK;

/** N draws, block by block, as a run draws them. */
const drawn = (fill: (out: Float64Array) => void, key: string): Float64Array => {
  const all = new Float64Array(N);
  const column = new Float64Array(BLOCK);
  for (let block = 0; block < BLOCKS; block += 1) {
    seedStream(7, keyHash(1, key), block);
    fill(column);
    all.set(column, block * BLOCK);
  }
  return all;
};

const slips = (law: SlipLaw, leadDays = 100): Float64Array => {
  const sampler = slipSampler(law, leadDays, "drawn");
  return drawn((out) => drawSlips(out, 0, sampler), JSON.stringify(law)).map((ms) => ms / DAY_MS);
};

const momentsOf = (draws: Float64Array) => {
  const mean = draws.reduce((sum, x) => sum + x, 0) / draws.length;
  const variance = draws.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (draws.length - 1);
  return { mean, error: Math.sqrt(variance / draws.length) };
};

const shareBelow = (draws: Float64Array, limit: number): number =>
  draws.reduce((sum, x) => sum + (x <= limit ? 1 : 0), 0) / draws.length;

/** The share below the value that the closed form gives for p is p, within 4 binomial standard errors. */
const expectQuantile = (draws: Float64Array, p: number, value: number) =>
  expect(Math.abs(shareBelow(draws, value) - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / draws.length));

const none = 0;
describe.each<[string, SlipLaw, { mean: number; median: number; p90: number }]>([
  [
    "exponential, mean 20",
    { kind: "exponential", noneShare: none, meanDays: 20 },
    { mean: 20, median: 20 * Math.LN2, p90: 46.051702 },
  ],
  [
    "log-normal, mean 20, σ 0.8",
    { kind: "log-normal", noneShare: none, meanDays: 20, sigma: 0.8 },
    { mean: 20, median: 14.522981, p90: 40.4867 },
  ],
  [
    "triangular 0, 10, 40",
    { kind: "triangular", noneShare: none, lowDays: 0, modeDays: 10, highDays: 40 },
    { mean: 16.666667, median: 15.505103, p90: 40 - Math.sqrt(0.1 * 40 * 30) },
  ],
  [
    "quantiles 0, 10, 30: straight between them",
    { kind: "quantiles", noneShare: none, days: [0, 10, 30] },
    { mean: 0.5 * 5 + 0.5 * 20, median: 10, p90: 10 + 0.8 * 20 },
  ],
  [
    "40 % none, else exponential, mean 12",
    { kind: "exponential", noneShare: 0.4, meanDays: 12 },
    // P(slip ≤ x) = 0.4 + 0.6 (1 − e^(−x/12)).
    { mean: 7.2, median: -12 * Math.log(0.5 / 0.6), p90: -12 * Math.log(0.1 / 0.6) },
  ],
  [
    "by lead time: 0.31 day a day, 100 days off",
    { kind: "by lead time", noneShare: none, perDay: 0.31 },
    { mean: 31, median: 31 * Math.LN2, p90: 31 * Math.LN10 },
  ],
])("%s", (_name, law, expected) => {
  const draws = slips(law);
  test("drawn as the closed form says", () => {
    const { mean, error } = momentsOf(draws);
    expect(Math.abs(mean - expected.mean)).toBeLessThan(4 * error);
    expectQuantile(draws, 0.5, expected.median);
    expectQuantile(draws, 0.9, expected.p90);
  });
  test("its quantiles in figures agree with the closed form", () => {
    expect(quantileOfAll(law, 0.5, 100)).toBeCloseTo(expected.median, 5);
    expect(quantileOfAll(law, 0.9, 100)).toBeCloseTo(expected.p90, 4);
  });
});

test("a list of observed slips comes back with the shares in which it was observed", () => {
  const draws = slips({ kind: "observed", days: [0, 0, 0, 4, 31] });
  for (const [days, share] of [
    [0, 0.6],
    [4, 0.8],
    [30, 0.8],
  ] as const)
    expectQuantile(draws, share, days);
  expect(new Set(draws)).toEqual(new Set([0, 4, 31]));
});

test("the normal quantile, against table values (Abramowitz and Stegun, table 26.5 gives them to fewer digits)", () => {
  expect(normalQuantile(0.5)).toBe(0);
  expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 14);
  expect(normalQuantile(0.9)).toBeCloseTo(1.2815515655446004, 14);
  expect(normalQuantile(0.999)).toBeCloseTo(3.090232306167813, 13);
  expect(normalQuantile(1e-9)).toBeCloseTo(-5.997807015007687, 12);
  expect(normalQuantile(0.025)).toBeCloseTo(-normalQuantile(0.975), 14);
});

test("factors: median 1, and log-normal with the stated spread", () => {
  const draws = drawn((out) => drawFactors(out, 0, 0.3), "factor");
  expectQuantile(draws, 0.5, 1);
  // e^(0.3 · 1.2815516)
  expectQuantile(draws, 0.9, 1.468845);
  const { mean, error } = momentsOf(draws);
  expect(Math.abs(mean - Math.exp(0.045))).toBeLessThan(4 * error);
});

test("k of n: mean and variance of the success probability are those of Beta(k + 1, n − k + 1)", () => {
  // NASA KSC 2009, first-level Bayesian estimate: (k + 1)/(n + 2); 99 of 100 → 0.980392, 0 of 0 → 0.5.
  for (const [k, n, mean] of [
    [99, 100, 0.980392],
    [0, 0, 0.5],
    [14, 15, 15 / 17],
  ] as const) {
    const draws = drawn((out) => drawLossProbabilities(out, k, n), `${k}/${n}`);
    const found = momentsOf(draws);
    expect(Math.abs(1 - found.mean - mean)).toBeLessThan(4 * found.error);
    const [a, b] = [k + 1, n - k + 1];
    const variance = (a * b) / ((a + b) ** 2 * (a + b + 1));
    // The relative error of a variance is √((kurtosis − 1)/N), under 4/√N for all of these.
    expect(Math.abs((found.error ** 2 * N) / variance - 1)).toBeLessThan(4 * (4 / Math.sqrt(N)));
  }
});

test("Erlang: the sum of 10 exponential gaps of mean 14 is done by 140 with probability 0.5420703", () => {
  const law: SlipLaw = { kind: "exponential", noneShare: 0, meanDays: 14 };
  const sampler = slipSampler(law, 0, "drawn");
  const sums = new Float64Array(N);
  for (let gap = 0; gap < 10; gap += 1) {
    const draws = drawn((out) => drawSlips(out, 0, sampler), `gap ${gap}`);
    for (let i = 0; i < N; i += 1) sums[i] = (sums[i] ?? 0) + (draws[i] ?? 0) / DAY_MS;
  }
  expectQuantile(sums, 0.5420703, 140);
  expect(momentsOf(sums).mean).toBeCloseTo(140, 0);
});

describe("streams", () => {
  test("of different keys, kinds, blocks and seeds are not correlated", () => {
    const word = (seed: number, kind: number, key: string, block: number): Float64Array => {
      const column = new Float64Array(BLOCK);
      seedStream(seed, keyHash(kind, key), block);
      drawFactors(column, 0, 1);
      return column.map(Math.log);
    };
    let sum = 0;
    let pairs = 0;
    const correlate = (a: Float64Array, b: Float64Array) => {
      const r = a.reduce((total, x, i) => total + x * (b[i] ?? 0), 0) / BLOCK;
      sum += r * r * BLOCK;
      pairs += 1;
    };
    for (let n = 0; n < 500; n += 1) {
      const base = word(n, 1, `key-${n}`, n);
      correlate(base, word(n, 1, `key-${n}`, n + 1));
      correlate(base, word(n, 1, `key-${n + 1}`, n));
      correlate(base, word(n, 2, `key-${n}`, n));
      correlate(base, word(n + 1, 1, `key-${n}`, n));
    }
    // Squares of 2,000 standard normals: mean 1, standard error √(2/2000).
    expect(Math.abs(sum / pairs - 1)).toBeLessThan(4 * Math.sqrt(2 / pairs));
  });

  test("a changed mean moves no zero: the flights that do not slip stay the same", () => {
    const zeros = (meanDays: number) =>
      drawn(
        (out) => drawSlips(out, 0, slipSampler({ kind: "exponential", noneShare: 0.4, meanDays }, 0, "drawn")),
        "x",
      ).map((ms) => (ms === 0 ? 1 : 0));
    expect(zeros(12)).toEqual(zeros(40));
  });
});
