/**
 * Sobol' indices of the Ishigami function against their closed form. Sources: T. Ishigami, T. Homma, ISUMA (1990) 398; the
 * closed form with a = 7, b = 0.1 as in A. Saltelli et al., "Global Sensitivity Analysis. The Primer" (2008): first order
 * 0.3139, 0.4424, 0, total 0.5576, 0.4424, 0.2437 (from memory; the forms are evaluated below). And of a sum, whose
 * indices are the shares of its variances (elementary).
 */
import { expect, test } from "vitest";
import { designOf } from "../../app/study/design.ts";
import { sobolIndices } from "../../app/study/indices.ts";

const outcomes = (
  base: number,
  ranges: readonly (readonly [number, number])[],
  f: (x: readonly number[]) => number,
): Float64Array => {
  const inputs = ranges.map(([from, to]) => ({
    quantity: "loss factor" as const,
    values: { kind: "range" as const, from, to },
  }));
  const design = designOf({ inputs, design: { kind: "what matters", base } });
  expect(design.points).toBe(base * (ranges.length + 2));
  return Float64Array.from({ length: design.points }, (_, point) => f(design.valuesOf(point)));
};

const turn = [-Math.PI, Math.PI] as const;
const ishigami = ([x = 0, y = 0, z = 0]: readonly number[]): number =>
  Math.sin(x) + 7 * Math.sin(y) ** 2 + 0.1 * z ** 4 * Math.sin(x);

test("the Ishigami function has its published indices, within their intervals", () => {
  const [a, b] = [7, 0.1];
  const one = (1 + (b * Math.PI ** 4) / 5) ** 2 / 2;
  const two = a ** 2 / 8;
  const both = b ** 2 * Math.PI ** 8 * (1 / 18 - 1 / 50);
  const variance = one + two + both;
  const known = [
    { input: 0, first: one / variance, total: (one + both) / variance, rounded: [0.3139, 0.5576] },
    { input: 1, first: two / variance, total: two / variance, rounded: [0.4424, 0.4424] },
    { input: 2, first: 0, total: both / variance, rounded: [0, 0.2437] },
  ];
  const found = sobolIndices(outcomes(4096, [turn, turn, turn], ishigami), 3);
  expect(found.mean).toBeCloseTo(a / 2, 2);
  expect(Math.abs(found.variance / variance - 1)).toBeLessThan(0.01);
  expect(found.inputs.map(({ input }) => input)).toEqual([0, 1, 2]);
  for (const { input, first, total, rounded } of known) {
    expect(first).toBeCloseTo(rounded[0] as number, 4);
    expect(total).toBeCloseTo(rounded[1] as number, 4);
    const row = found.inputs.find((one) => one.input === input)!;
    expect(Math.abs(row.first - first)).toBeLessThan(0.01);
    expect(Math.abs(row.total - total)).toBeLessThan(0.01);
    expect(row.firstInterval.low).toBeLessThan(first);
    expect(row.firstInterval.high).toBeGreaterThan(first);
    expect(row.totalInterval.low).toBeLessThan(total);
    expect(row.totalInterval.high).toBeGreaterThan(total);
    expect(row.totalInterval.high - row.totalInterval.low).toBeLessThan(0.1);
  }
});

test("more points come nearer: the error at 16 times the points is far smaller", () => {
  const error = (base: number): number => {
    const { inputs } = sobolIndices(outcomes(base, [turn, turn, turn], ishigami), 3);
    return Math.max(...inputs.map(({ input, total }) => Math.abs(total - ([0.5576, 0.4424, 0.2437][input] as number))));
  };
  expect(error(4096)).toBeLessThan(error(256) / 4);
});

test("of a sum each input has the share of its variance, alone as in all; what does not count has none", () => {
  const found = sobolIndices(
    outcomes(
      2048,
      [
        [0, 1],
        [0, 3],
        [0, 1],
      ],
      ([x = 0, y = 0]) => x + y + 1e6,
    ),
    3,
  );
  const of = new Map(found.inputs.map((row) => [row.input, row]));
  expect(of.get(0)?.first).toBeCloseTo(0.1, 2);
  expect(of.get(0)?.total).toBeCloseTo(0.1, 2);
  expect(of.get(1)?.total).toBeCloseTo(0.9, 2);
  expect(of.get(2)?.total).toBe(0);
});

test("an outcome that does not vary has no ranking", () => {
  expect(
    sobolIndices(
      outcomes(64, [[0, 1]], () => 7.3),
      1,
    ),
  ).toMatchObject({ variance: 0, inputs: [] });
});
