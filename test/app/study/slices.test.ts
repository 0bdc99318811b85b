/** Studies looked at along one input or two: worked out by hand on a few rows. */
import { expect, test } from "vitest";
import { curveOf, holdsAt, mapOf, outcomeColumns, placesOf, turnsOf } from "../../../app/study/slices.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { packRows } from "../../../app/study/study-table.ts";

const names = (list: readonly string[]) => list.map((name) => ({ name, unit: "" }));
const input = (words: string) => ({ words, unit: "", today: null });
const list = (values: readonly number[]) => ({ kind: "list", list: values });

const two = {
  asked: parseStudy({
    name: "two",
    inputs: [
      { quantity: "loss factor", values: list([1, 2]) },
      { quantity: "sortie cadence", values: list([30, 10, 20]) },
    ],
    design: { kind: "grid" },
    ask: [{ kind: "supply", each: false }],
  }),
  inputs: [input("loss factor"), input("sortie cadence")],
  columns: names(["loss factor", "sortie cadence", "sorties", "supplied", "word"]),
  from: 0,
  rows: packRows(
    [
      [1, 30, 4, 4, "a"],
      [1, 10, 4, 1, "a"],
      [1, 20, 4, 2, "a"],
      [2, 30, 4, 3, "a"],
      [2, 10, 4, 0, "a"],
    ],
    5,
  ),
};

test("a point of a grid lies where its number says: the last input goes quickest", () => {
  expect([0, 1, 2, 3, 5].map((point) => placesOf(two, point))).toEqual([
    [0, 0],
    [0, 1],
    [0, 2],
    [1, 0],
    [1, 2],
  ]);
});

test("a curve over one of two inputs has the middle of the other's points, and none where there is none yet", () => {
  expect(curveOf(two, 0, 3)).toEqual([
    { x: 1, low: 1, middle: 2, high: 4, count: 3 },
    { x: 2, low: 0, middle: 3, high: 3, count: 2 },
  ]);
  expect(curveOf(two, 1, 3).map(({ x, count }) => [x, count])).toEqual([
    [10, 2],
    [20, 1],
    [30, 2],
  ]);
});

test("it holds where every sortie is supplied", () => {
  const holds = holdsAt(two);
  expect([0, 1, 2, 3, 4].map((row) => holds?.(row))).toEqual([true, false, false, false, false]);
});

test("a map has the points that are known, at their places, and of others only those at the values asked", () => {
  const map = mapOf(two, 0, 1, 3, new Map());
  expect([map.xs, map.ys]).toEqual([
    [1, 2],
    [10, 20, 30],
  ]);
  expect(map.cells.map(({ x, y, value }) => [x, y, value])).toContainEqual([2, 30, 3]);
  expect(map.cells).toHaveLength(5);
  expect(mapOf(two, 0, 0, 3, new Map([[1, 1]])).cells.map(({ row }) => row)).toEqual([1, 4]);
});

test("words and inputs are no outcomes to draw", () => {
  expect(outcomeColumns(two)).toEqual([2, 3]);
});

test("one input: the error of a probability is its band, and the plan turns between two neighbours", () => {
  const one = {
    asked: parseStudy({
      name: "one",
      inputs: [{ quantity: "loss factor", values: list([1, 3, 2]) }],
      design: { kind: "grid" },
      ask: [{ kind: "risk" }],
    }),
    inputs: [input("loss factor")],
    columns: names(["loss factor", "all fly when planned", "all fly when planned: error"]),
    from: 0,
    rows: packRows(
      [
        [1, 0.95, 0.01],
        [3, 0.4, 0.02],
        [2, 0.91, 0.05],
      ],
      3,
    ),
  };
  const curve = curveOf(one, 0, 1);
  expect(curve.map(({ x, middle }) => [x, middle])).toEqual([
    [1, 0.95],
    [2, 0.91],
    [3, 0.4],
  ]);
  // 1.96 standard errors on each side, within 0 and 1: worked by hand.
  expect(curve[0]?.low).toBeCloseTo(0.9304, 10);
  expect(curve[1]?.high).toBe(1);
  expect(turnsOf(one)).toEqual([{ below: 2, above: 3 }]);
});
