/** Instants to pixels; zoom and pan. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SHORTEST_MS, clampStretch, panBy, timeScale, zoomAbout } from "../../../app/picture/time-scale.ts";

const DAY = 86_400_000;
const whole = { fromAt: 0, untilAt: 1000 * DAY };

it("maps both ends, the middle, and back", () => {
  const scale = timeScale(0, 10 * DAY, 100, 300);
  expect([scale.x(0), scale.x(5 * DAY), scale.x(10 * DAY)]).toEqual([100, 200, 300]);
  expect(scale.at(150)).toBe(2.5 * DAY);
  expect(scale.pixelsPerDay).toBe(20);
});

describe("zoom", () => {
  it("holds the instant under the pointer", () => {
    const before = { fromAt: 100 * DAY, untilAt: 300 * DAY };
    const after = zoomAbout(before, 150 * DAY, 2, whole);
    expect(after).toEqual({ fromAt: 125 * DAY, untilAt: 225 * DAY });
  });
  it("stops at half a day", () => {
    const after = zoomAbout({ fromAt: 10 * DAY, untilAt: 11 * DAY }, 10.5 * DAY, 1e6, whole);
    expect(after.untilAt - after.fromAt).toBe(SHORTEST_MS);
  });
  it("out far enough shows the whole", () => {
    expect(zoomAbout({ fromAt: 10 * DAY, untilAt: 11 * DAY }, 10.5 * DAY, 1e-9, whole)).toEqual(whole);
  });
});

it("pan stops at the ends and keeps its length", () => {
  expect(panBy({ fromAt: 900 * DAY, untilAt: 950 * DAY }, 500 * DAY, whole)).toEqual({
    fromAt: 950 * DAY,
    untilAt: 1000 * DAY,
  });
});

it("no sequence of zooms and pans leaves the whole", () => {
  const step = fc.oneof(
    fc.record({
      at: fc.double({ min: 0, max: 1000, noNaN: true }),
      factor: fc.double({ min: 0.01, max: 100, noNaN: true }),
    }),
    fc.record({ days: fc.double({ min: -2000, max: 2000, noNaN: true }) }),
  );
  fc.assert(
    fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
      let shown = whole;
      for (const each of steps)
        shown =
          "days" in each ? panBy(shown, each.days * DAY, whole) : zoomAbout(shown, each.at * DAY, each.factor, whole);
      expect(shown.fromAt).toBeGreaterThanOrEqual(-1e-3);
      expect(shown.untilAt).toBeLessThanOrEqual(whole.untilAt + 1e-3);
      expect(shown.untilAt - shown.fromAt).toBeGreaterThanOrEqual(SHORTEST_MS - 1e-3);
      expect(clampStretch(shown, whole).fromAt).toBeCloseTo(shown.fromAt, 0);
    }),
  );
});
