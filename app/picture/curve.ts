/**
 * The exact level curve in pixels. Between events it is sampled from the closed form, more densely where it bends, so
 * that the drawn line keeps to the curve within a fifth of a pixel; at events it is upright.
 */
import { type SummedStretch, stretchLevel } from "../forecast/curve.ts";
import { daysToEmpty } from "../storage/level.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { TimeScale } from "./time-scale.ts";

/** A sudden change of level. */
export interface Jump {
  readonly at: number;
  readonly x: number;
  readonly fromKg: number;
  readonly toKg: number;
}

export interface Curve {
  /** x and y in turn. */
  readonly points: readonly number[];
  readonly jumps: readonly Jump[];
}

/** Largest distance of the drawn line from the curve at the middle of a stretch, pixels. */
const TOLERANCE = 0.2;
const DEEPEST = 9;

/** Below a gram it is the rounding of the sum, not an event. */
const LEAST_JUMP_KG = 1e-3;

/** Index of the first stretch that ends after an instant. */
const firstAfter = (stretches: readonly SummedStretch[], at: number): number => {
  let low = 0;
  let high = stretches.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((stretches[middle]?.endAt ?? 0) > at) high = middle;
    else low = middle + 1;
  }
  return low;
};

/** Instants inside a stretch at which one of its tanks runs empty: there the sum has a bend. */
const bendsOf = (stretch: SummedStretch, fromAt: number, untilAt: number): readonly number[] =>
  stretch.parts
    .flatMap((part) => {
      const days = daysToEmpty(part.m0Kg, part.kPerDay, part.cKgPerDay - part.fKgPerDay);
      const at = days === null ? Infinity : part.startAt + days * DAY_MS;
      return at > fromAt && at < untilAt ? [at] : [];
    })
    .sort((a, b) => a - b);

/** The summed level over the scale's stretch of time, as far as it reaches, in pixels. */
export const curve = (stretches: readonly SummedStretch[], scale: TimeScale, y: (massKg: number) => number): Curve => {
  const points: number[] = [];
  const jumps: Jump[] = [];

  const bend = (stretch: SummedStretch, xa: number, ya: number, xb: number, yb: number, depth: number): void => {
    if (xb - xa < 1.5 || depth >= DEEPEST) return;
    const x = (xa + xb) / 2;
    const yMiddle = y(stretchLevel(stretch, scale.at(x)));
    if (Math.abs(yMiddle - (ya + yb) / 2) <= TOLERANCE) return;
    bend(stretch, xa, ya, x, yMiddle, depth + 1);
    points.push(x, yMiddle);
    bend(stretch, x, yMiddle, xb, yb, depth + 1);
  };
  const smooth = (stretch: SummedStretch, fromAt: number, untilAt: number): void => {
    const xb = scale.x(untilAt);
    const yb = y(stretchLevel(stretch, untilAt));
    bend(stretch, scale.x(fromAt), y(stretchLevel(stretch, fromAt)), xb, yb, 0);
    points.push(xb, yb);
  };

  let lastKg: number | null = null;
  for (let i = firstAfter(stretches, scale.fromAt); i < stretches.length; i += 1) {
    const stretch = stretches[i];
    if (stretch === undefined || stretch.startAt >= scale.untilAt) break;
    const fromAt = Math.max(stretch.startAt, scale.fromAt);
    const untilAt = Math.min(stretch.endAt, scale.untilAt);
    const startKg = stretchLevel(stretch, fromAt);
    const x = scale.x(fromAt);
    if (lastKg === null) points.push(x, y(startKg));
    else if (Math.abs(startKg - lastKg) > LEAST_JUMP_KG) {
      jumps.push({ at: fromAt, x, fromKg: lastKg, toKg: startKg });
      points.push(x, y(startKg));
    }
    let start = fromAt;
    for (const end of [...bendsOf(stretch, fromAt, untilAt), untilAt]) {
      smooth(stretch, start, end);
      start = end;
    }
    lastKg = stretchLevel(stretch, untilAt);
  }
  return { points: thinned(points, scale.right - scale.left), jumps };
};

/** Where there are many points to a pixel: first, lowest, highest and last of each column, so that no spike is lost. */
const thinned = (points: readonly number[], width: number): readonly number[] => {
  if (points.length / 2 <= width * 4) return points;
  const kept: number[] = [];
  let i = 0;
  while (i < points.length) {
    const column = Math.floor(points[i] ?? 0);
    let j = i;
    let low = i;
    let high = i;
    while (j < points.length && Math.floor(points[j] ?? 0) === column) {
      if ((points[j + 1] ?? 0) < (points[low + 1] ?? 0)) low = j;
      if ((points[j + 1] ?? 0) > (points[high + 1] ?? 0)) high = j;
      j += 2;
    }
    for (const k of [...new Set([i, low, high, j - 2])].sort((a, b) => a - b))
      kept.push(points[k] ?? 0, points[k + 1] ?? 0);
    i = j;
  }
  return kept;
};

/** The summed level at an instant, after what happens then, kg; null: outside of what the stretches cover. */
export const levelOf = (stretches: readonly SummedStretch[], at: number): number | null => {
  const first = stretches[0];
  const last = stretches.at(-1);
  if (first === undefined || last === undefined || at < first.startAt || at > last.endAt) return null;
  const stretch = stretches[firstAfter(stretches, at)] ?? last;
  return stretchLevel(stretch, at);
};
