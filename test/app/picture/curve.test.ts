/** The drawn curve keeps to the exact one; events are upright; a tank that runs empty bends where it does. */
import { describe, expect, it } from "vitest";
import { type SummedStretch, sumLevels } from "../../../app/forecast/curve.ts";
import type { LevelSegment } from "../../../app/storage/segment.ts";
import { curve, levelOf } from "../../../app/picture/curve.ts";
import { timeScale } from "../../../app/picture/time-scale.ts";

const DAY = 86_400_000;
const segment = (fromDay: number, untilDay: number, m0Kg: number, kPerDay = 0, cKgPerDay = 0): LevelSegment => ({
  startAt: fromDay * DAY,
  endAt: untilDay * DAY,
  m0Kg,
  kPerDay,
  cKgPerDay,
  fKgPerDay: 0,
});
const scale = timeScale(0, 100 * DAY, 0, 1000);
/** One pixel is 10 kg. */
const y = (massKg: number): number => 500 - massKg / 10;
const stretches = (...tanks: LevelSegment[][]): readonly SummedStretch[] => sumLevels(tanks);

const pointsOf = (flat: ArrayLike<number>): readonly (readonly [number, number])[] =>
  Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i]!, flat[2 * i + 1]!] as const);

/** Height of the drawn line at a pixel. */
const drawnAt = (points: readonly (readonly [number, number])[], x: number): number => {
  const index = points.findIndex(([px]) => px >= x);
  const [xb, yb] = points[index]!;
  const [xa, ya] = points[Math.max(0, index - 1)]!;
  return xb === xa ? yb : ya + ((yb - ya) * (x - xa)) / (xb - xa);
};

describe("a decaying level", () => {
  const drawn = pointsOf(curve(stretches([segment(0, 100, 5000, 0.05)]), scale, y).points);

  it("is drawn within a quarter of a pixel of the exponential everywhere", () => {
    for (let x = 0; x <= 1000; x += 0.5) {
      const exact = 500 - (5000 * Math.exp((-0.05 * x) / 10)) / 10;
      expect(Math.abs(drawnAt(drawn, x) - exact)).toBeLessThan(0.25);
    }
  });

  it("takes far fewer points than pixels, and far more than one a week", () => {
    expect(drawn.length).toBeLessThan(150);
    expect(drawn.length).toBeGreaterThan(15);
  });
});

it("a level that runs straight is drawn with two points", () => {
  expect(curve(stretches([segment(0, 100, 5000, 0, 10)]), scale, y).points).toEqual([0, 0, 1000, 100]);
});

it("a delivery is upright and is reported as a jump", () => {
  const { points, jumps } = curve(stretches([segment(0, 40, 1000), segment(40, 100, 3000)]), scale, y);
  expect(points).toEqual([0, 400, 400, 400, 400, 200, 1000, 200]);
  expect(jumps).toEqual([{ at: 40 * DAY, x: 400, fromKg: 1000, toKg: 3000 }]);
});

it("a tank that runs empty meets the ground at that instant and stays there", () => {
  // 500 kg at 20 kg/day: empty after 25 days, at pixel 250.
  const { points } = curve(stretches([segment(0, 100, 500, 0, 20)]), scale, y);
  expect(points).toEqual([0, 450, 250, 500, 1000, 500]);
});

it("two tanks are summed where either has an event", () => {
  const sum = stretches([segment(0, 100, 1000)], [segment(0, 30, 500), segment(30, 100, 800)]);
  expect(curve(sum, scale, y).points).toEqual([0, 350, 300, 350, 300, 320, 1000, 320]);
});

it("begins and ends at the edges of what is shown", () => {
  const shown = timeScale(10 * DAY, 20 * DAY, 0, 100);
  expect(curve(stretches([segment(0, 100, 1000, 0, 10)]), shown, y).points).toEqual([0, 410, 100, 420]);
});

it("a spike narrower than a pixel is not lost among many events", () => {
  const many = Array.from({ length: 12_000 }, (_, i) =>
    segment(i / 120, (i + 1) / 120, i === 7001 ? 4000 : 1000 + (i % 2)),
  );
  const drawn = pointsOf(curve(stretches(many), scale, y).points);
  expect(Math.min(...drawn.map(([, py]) => py))).toBe(100);
  expect(drawn.length).toBeLessThanOrEqual(4 * 1001);
});

describe("reading a level", () => {
  const sum = stretches([segment(0, 40, 1000), segment(40, 100, 3000)]);
  it("at an event gives what is there after it", () => expect(levelOf(sum, 40 * DAY)).toBe(3000));
  it("outside of what is known gives nothing", () => {
    expect(levelOf(sum, -1)).toBeNull();
    expect(levelOf(sum, 101 * DAY)).toBeNull();
  });
});
