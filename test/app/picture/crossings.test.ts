/** Upright lines through an area, by hand. */
import { expect, test } from "vitest";
import { crossings } from "../../../app/picture/crossings.ts";

test("a box is crossed once down and once up, by the lines whose middle lies in it", () => {
  // From 3.6 to 12.5: the lines of 4 and 8 (their middles 4.5 and 8.5); the one of 12 lies on the edge, outside.
  const found = crossings([3.6, 10, 12.5, 10, 12.5, 30, 3.6, 30], 4);
  expect([...found]).toEqual([
    [4, [10, 30]],
    [8, [10, 30]],
  ]);
});

test("under a slope the upper end follows it", () => {
  const found = crossings([0, 20, 20, 0, 20, 20], 8);
  expect(found.get(0)).toEqual([19.5, 20]);
  expect(found.get(8)).toEqual([11.5, 20]);
  expect(found.get(16)).toEqual([3.5, 20]);
});

test("a notch is left out: four crossings, in order", () => {
  // A box of 20 by 20 whose right side is cut in to the middle between 8 and 12.
  const notched = [0, 0, 20, 0, 20, 8, 10, 8, 10, 12, 20, 12, 20, 20, 0, 20];
  expect(crossings(notched, 16).get(16)).toEqual([0, 8, 12, 20]);
  expect(crossings(notched, 4).get(4)).toEqual([0, 20]);
});

test("an upright edge and a corner on a line are counted once", () => {
  const found = crossings([4.5, 0, 8.5, 10, 12.5, 0, 12.5, 20, 4.5, 20], 4);
  expect(found.get(4)).toEqual([0, 20]);
  expect(found.get(8)).toEqual([10, 20]);
  expect(found.get(12)).toBeUndefined();
});

test("nothing comes of nothing", () => {
  expect(crossings([], 4).size).toBe(0);
  expect(crossings([5, 5], 4).size).toBe(0);
});
