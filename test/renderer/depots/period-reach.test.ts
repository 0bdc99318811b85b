/** Where short pieces of a line can be pressed: 24 pixels each (WCAG 2.2, 2.5.8), none on another, the rest where it is drawn. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { LEAST_REACH, reachOf } from "../../../renderer/depots/period-reach.ts";

const spans = (...edges: readonly (readonly [number, number])[]) => edges.map(([from, until]) => ({ from, until }));

it("a piece that is wide enough is pressed where it is drawn", () => {
  const pieces = spans([0, 100], [100, 124], [200, 300]);
  expect(reachOf(pieces, 300)).toEqual(pieces);
});

it("one short piece takes as much from each neighbour; two beside each other keep the edge between them", () => {
  // By hand: 10 pixels about 105 become 24, from 93 to 117.
  expect(reachOf(spans([0, 100], [100, 110], [110, 300]), 300)).toEqual(spans([0, 93], [93, 117], [117, 300]));
  // Edges of 100, 110, 120 with at least 24 between them, moved least: 86, 110, 134.
  expect(reachOf(spans([0, 100], [100, 110], [110, 120], [120, 300]), 300)).toEqual(
    spans([0, 86], [86, 110], [110, 134], [134, 300]),
  );
});

it("at the ends of the line it grows inward, and into a gap", () => {
  expect(reachOf(spans([0, 4], [4, 300]), 300)).toEqual(spans([0, 24], [24, 300]));
  expect(reachOf(spans([0, 290], [298, 300]), 300)).toEqual(spans([0, 276], [276, 300]));
});

it("where there is no room for all, each has an even share", () => {
  expect(reachOf(spans([0, 1], [1, 2], [2, 60]), 60)).toEqual(spans([0, 20], [20, 40], [40, 60]));
  expect(reachOf([], 60)).toEqual([]);
  // Before the line has a width.
  expect(reachOf(spans([0, 0], [0, 0]), 0)).toEqual(spans([0, 0], [0, 0]));
});

it("whatever the pieces: in their order, within the line, none shorter than it must be, none on another", () => {
  const line = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 2, maxLength: 40 }).chain((edges) => {
    const sorted = edges.toSorted((a, b) => a - b);
    const pieces = sorted.flatMap((from, place) => {
      const until = sorted[place + 1];
      return until === undefined ? [] : [{ from, until }];
    });
    return fc.record({ isKept: fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }), pieces: fc.constant(pieces) });
  });
  fc.assert(
    fc.property(line, ({ isKept, pieces }) => {
      const some = pieces.filter((_, place) => isKept[place]);
      const reaches = reachOf(some, 1000);
      const least = Math.min(LEAST_REACH, 1000 / Math.max(1, some.length));
      expect(reaches).toHaveLength(some.length);
      let end = 0;
      for (const { from, until } of reaches) {
        expect(from).toBeGreaterThanOrEqual(end - 1e-6);
        expect(until - from).toBeGreaterThanOrEqual(least - 1e-6);
        end = until;
      }
      expect(end).toBeLessThanOrEqual(1000 + 1e-6);
    }),
  );
});
