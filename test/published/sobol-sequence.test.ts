/**
 * The Sobol' sequence against its published points and its published evenness. Sources: S. Joe, F. Y. Kuo, SIAM J. Sci.
 * Comput. 30 (2008) 2635, and the first ten points in three dimensions that their page gives for new-joe-kuo-6.21201 (from
 * memory); I. M. Sobol', USSR Comput. Math. Math. Phys. 7 (1967) 86: of 2^k points one lies in each part of 2^k in every
 * dimension, and the first two dimensions are a (0, 2)-sequence in base 2.
 */
import { expect, test } from "vitest";
import { MAX_DIMENSIONS, sobolCoordinate } from "../../app/study/sobol-sequence.ts";

const point = (index: number, dimensions: number): readonly number[] =>
  Array.from({ length: dimensions }, (_, dimension) => sobolCoordinate(index, dimension));

test("the first ten points in three dimensions are the published ones", () => {
  expect(Array.from({ length: 10 }, (_, index) => point(index, 3))).toEqual([
    [0, 0, 0],
    [0.5, 0.5, 0.5],
    [0.75, 0.25, 0.25],
    [0.25, 0.75, 0.75],
    [0.375, 0.375, 0.625],
    [0.875, 0.875, 0.125],
    [0.625, 0.125, 0.875],
    [0.125, 0.625, 0.375],
    [0.1875, 0.3125, 0.9375],
    [0.6875, 0.8125, 0.4375],
  ]);
});

test("of every 2^k points that follow each other from a multiple on, one lies in each part, in every dimension", () => {
  for (let dimension = 0; dimension < MAX_DIMENSIONS; dimension += 1)
    for (const bits of [1, 4, 9])
      for (const turn of [0, 1, 5, 1000]) {
        const size = 2 ** bits;
        const parts = new Set(
          Array.from({ length: size }, (_, n) => Math.floor(sobolCoordinate(turn * size + n, dimension) * size)),
        );
        expect(parts.size).toBe(size);
      }
});

test("the first two dimensions have one of 2^k points in each box of that area, whatever its shape", () => {
  const bits = 10;
  for (let across = 0; across <= bits; across += 1) {
    const boxes = new Set(
      Array.from({ length: 2 ** bits }, (_, index) => {
        const [x, y] = point(index, 2) as [number, number];
        return `${Math.floor(x * 2 ** across)} ${Math.floor(y * 2 ** (bits - across))}`;
      }),
    );
    expect(boxes.size).toBe(2 ** bits);
  }
});

test("the mean of a product over the unit cube is met far closer than by as many random points", () => {
  // The integral of Π(1 + (x − 1/2)) is 1; n random points err by about √(((1 + 1/12)^8 − 1)/n) = 0.011.
  const n = 8192;
  let sum = 0;
  for (let index = 0; index < n; index += 1)
    sum += point(index, MAX_DIMENSIONS).reduce((product, x) => product * (0.5 + x), 1);
  expect(Math.abs(sum / n - 1)).toBeLessThan(0.001);
});
