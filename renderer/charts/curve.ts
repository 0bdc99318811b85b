/**
 * The exact level curve in pixels. Between events it is sampled from the closed form, more densely where it bends, so
 * that no point of the drawn line is more than a quarter of a pixel from the curve; at events it is upright.
 */
import { daysToEmpty, levelAfter } from "../../app/forecast/level.ts";
import type { LevelHistory, LevelSegment } from "../../app/forecast/segment.ts";
import { DAY_MS } from "../../app/ledger/quantity.ts";
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

const levelIn = (segment: LevelSegment, at: number): number =>
  levelAfter(segment.m0Kg, segment.kPerDay, segment.cKgPerDay - segment.fKgPerDay, (at - segment.startAt) / DAY_MS);

/** First of the segments that ends after `at`. */
const indexAfter = (segments: readonly LevelSegment[], at: number): number => {
  let low = 0;
  let high = segments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((segments[middle]?.endAt ?? 0) > at) high = middle;
    else low = middle + 1;
  }
  return low;
};

/** Instants between which the sum of the histories is smooth, within [fromAt, untilAt], in order. */
const edgesOf = (histories: readonly LevelHistory[], fromAt: number, untilAt: number): readonly number[] => {
  const edges = new Set([fromAt, untilAt]);
  const add = (at: number): void => {
    if (at > fromAt && at < untilAt) edges.add(at);
  };
  for (const { segments } of histories)
    for (let i = indexAfter(segments, fromAt); i < segments.length; i += 1) {
      const segment = segments[i];
      if (segment === undefined || segment.startAt >= untilAt) break;
      add(segment.startAt);
      add(segment.endAt);
      const empty = daysToEmpty(segment.m0Kg, segment.kPerDay, segment.cKgPerDay - segment.fKgPerDay);
      if (empty !== null && segment.startAt + empty * DAY_MS < segment.endAt) add(segment.startAt + empty * DAY_MS);
    }
  return [...edges].sort((a, b) => a - b);
};

/** Where the histories together begin and end; null: they hold nothing. */
export const spanOf = (histories: readonly LevelHistory[]): { readonly fromAt: number; readonly untilAt: number } | null => {
  const starts = histories.flatMap(({ segments }) => segments[0]?.startAt ?? []);
  const ends = histories.flatMap(({ segments }) => segments.at(-1)?.endAt ?? []);
  return starts.length === 0 ? null : { fromAt: Math.min(...starts), untilAt: Math.max(...ends) };
};

/** The sum of the histories over the scale's stretch (as far as they reach), in pixels. */
export const curve = (histories: readonly LevelHistory[], scale: TimeScale, y: (massKg: number) => number): Curve => {
  const span = spanOf(histories);
  if (span === null) return { points: [], jumps: [] };
  const fromAt = Math.max(scale.fromAt, span.fromAt);
  const untilAt = Math.min(scale.untilAt, span.untilAt);
  if (fromAt >= untilAt) return { points: [], jumps: [] };

  const points: number[] = [];
  const jumps: Jump[] = [];
  const places = histories.map(({ segments }) => indexAfter(segments, fromAt));
  const active: (LevelSegment | null)[] = histories.map(() => null);
  const sum = (at: number): number => {
    let total = 0;
    for (const segment of active) if (segment !== null) total += levelIn(segment, at);
    return total;
  };
  const bend = (xa: number, ya: number, xb: number, yb: number, depth: number): void => {
    if (xb - xa < 1.5 || depth >= DEEPEST) return;
    const x = (xa + xb) / 2;
    const yMiddle = y(sum(scale.at(x)));
    if (Math.abs(yMiddle - (ya + yb) / 2) <= TOLERANCE) return;
    bend(xa, ya, x, yMiddle, depth + 1);
    points.push(x, yMiddle);
    bend(x, yMiddle, xb, yb, depth + 1);
  };

  const edges = edgesOf(histories, fromAt, untilAt);
  let lastKg = Number.NaN;
  for (let e = 0; e + 1 < edges.length; e += 1) {
    const start = edges[e] ?? fromAt;
    const end = edges[e + 1] ?? untilAt;
    histories.forEach(({ segments }, h) => {
      let place = places[h] ?? 0;
      while (place < segments.length && (segments[place]?.endAt ?? 0) <= start) place += 1;
      places[h] = place;
      const segment = segments[place];
      active[h] = segment !== undefined && segment.startAt <= start ? segment : null;
    });
    const startKg = sum(start);
    const endKg = sum(end);
    const xa = scale.x(start);
    const xb = scale.x(end);
    // Below a gram it is the rounding of the sum, not an event.
    if (Number.isNaN(lastKg)) points.push(xa, y(startKg));
    else if (Math.abs(startKg - lastKg) > 1e-3) {
      jumps.push({ at: start, x: xa, fromKg: lastKg, toKg: startKg });
      points.push(xa, y(startKg));
    }
    const ya = y(startKg);
    const yb = y(endKg);
    bend(xa, ya, xb, yb, 0);
    points.push(xb, yb);
    lastKg = endKg;
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
    for (const k of [...new Set([i, low, high, j - 2])].sort((a, b) => a - b)) kept.push(points[k] ?? 0, points[k + 1] ?? 0);
    i = j;
  }
  return kept;
};

/** The sum of the histories at an instant, after the events of that instant; null: outside of what they hold. */
export const sumAt = (histories: readonly LevelHistory[], at: number): number | null => {
  const span = spanOf(histories);
  if (span === null || at < span.fromAt || at > span.untilAt) return null;
  let total = 0;
  for (const { segments } of histories) {
    const segment = segments[Math.min(indexAfter(segments, at), segments.length - 1)];
    if (segment !== undefined && segment.startAt <= at) total += levelIn(segment, Math.min(at, segment.endAt));
  }
  return total;
};
