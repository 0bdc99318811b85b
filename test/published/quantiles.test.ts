/**
 * Quantiles of Student's t and of χ².
 * Sources: NIST/SEMATECH e-Handbook of Statistical Methods, tables 1.3.6.7.2 (t) and 1.3.6.7.4 (χ²), three decimals;
 * M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.4.4, 26.4.5 (χ²) and 26.7.3, 26.7.4 (t): the
 * distribution as finite sums for whole degrees of freedom, a way that the program does not take.
 * Status: table values from memory; the sums are worked out here.
 */
import { describe, expect, it } from "vitest";
import { chiSquareQuantile, tQuantile } from "../../app/losses/fit/quantile.ts";

describe("table of Student's t, upper critical values", () => {
  it.each([
    [1, 0.9, 3.078],
    [1, 0.975, 12.706],
    [2, 0.975, 4.303],
    [3, 0.95, 2.353],
    [4, 0.99, 3.747],
    [5, 0.975, 2.571],
    [8, 0.975, 2.306],
    [10, 0.975, 2.228],
    [10, 0.999, 4.144],
    [20, 0.975, 2.086],
    [30, 0.975, 2.042],
    [60, 0.975, 2],
    [100, 0.975, 1.984],
  ])("ν = %i, p = %f: %f", (degreesOfFreedom, probability, value) => {
    expect(Math.abs(tQuantile(probability, degreesOfFreedom) - value)).toBeLessThanOrEqual(0.000_51);
    expect(tQuantile(1 - probability, degreesOfFreedom)).toBeCloseTo(-tQuantile(probability, degreesOfFreedom), 10);
  });
});

describe("table of χ², critical values", () => {
  it.each([
    [1, 0.025, 0.001],
    [1, 0.95, 3.841],
    [1, 0.975, 5.024],
    [2, 0.95, 5.991],
    [2, 0.975, 7.378],
    [3, 0.975, 9.348],
    [5, 0.025, 0.831],
    [5, 0.975, 12.833],
    [10, 0.025, 3.247],
    [10, 0.975, 20.483],
    [10, 0.99, 23.209],
    [20, 0.025, 9.591],
    [20, 0.975, 34.17],
    [30, 0.025, 16.791],
    [30, 0.975, 46.979],
    [100, 0.025, 74.222],
    [100, 0.975, 129.561],
  ])("ν = %i, p = %f: %f", (degreesOfFreedom, probability, value) => {
    expect(Math.abs(chiSquareQuantile(probability, degreesOfFreedom) - value)).toBeLessThanOrEqual(0.000_51);
  });
});

/** 26.7.3 and 26.7.4: the probability that |t| stays below. */
const withinT = (t: number, nu: number): number => {
  const theta = Math.atan(t / Math.sqrt(nu));
  const cos2 = Math.cos(theta) ** 2;
  if (nu === 1) return (2 * theta) / Math.PI;
  let term = nu % 2 === 0 ? 1 : Math.cos(theta);
  let sum = term;
  for (let n = nu % 2 === 0 ? 2 : 3; n <= nu - 2; n += 2) {
    term *= (cos2 * (n - 1)) / n;
    sum += term;
  }
  return nu % 2 === 0 ? Math.sin(theta) * sum : (2 / Math.PI) * (theta + Math.sin(theta) * sum);
};

/** 26.4.5: the probability that χ² goes above, for an even number: a sum of Poisson. */
const aboveEven = (x: number, nu: number): number => {
  let term = Math.exp(-x / 2);
  let sum = term;
  for (let r = 1; r <= nu / 2 - 1; r += 1) {
    term *= x / 2 / r;
    sum += term;
  }
  return sum;
};

const probabilities = [0.001, 0.025, 0.1, 0.5, 0.8, 0.975, 0.9999];

describe("put back into the finite sums", () => {
  it.each([1, 2, 3, 4, 7, 12, 25, 60, 151, 400])("Student's t, ν = %i", (nu) => {
    for (const within of probabilities)
      expect(Math.abs(withinT(tQuantile(0.5 + within / 2, nu), nu) / within - 1)).toBeLessThan(1e-11);
  });

  it.each([2, 4, 6, 10, 24, 80, 200, 700])("χ², ν = %i", (nu) => {
    for (const above of probabilities)
      expect(Math.abs(aboveEven(chiSquareQuantile(1 - above, nu), nu) / above - 1)).toBeLessThan(1e-11);
  });
});

describe("many degrees of freedom", () => {
  it("the median of χ² is near ν (1 − 2/(9 ν))³ (Wilson and Hilferty, as in 26.4.17)", () => {
    for (const nu of [1000, 5000, 20_000, 100_000])
      expect(Math.abs(chiSquareQuantile(0.5, nu) - nu * (1 - 2 / (9 * nu)) ** 3)).toBeLessThan(0.001);
  });

  it("Student's t comes to the normal 1.959964", () => {
    expect(tQuantile(0.975, 1e7)).toBeCloseTo(1.959_964, 5);
  });
});

it("refuses what is no probability and no degrees of freedom", () => {
  for (const [probability, nu] of [
    [0, 3],
    [1, 3],
    [Number.NaN, 3],
    [0.5, 0],
    [0.5, Number.POSITIVE_INFINITY],
  ] as const) {
    expect(() => tQuantile(probability, nu)).toThrow(RangeError);
    expect(() => chiSquareQuantile(probability, nu)).toThrow(RangeError);
  }
});
