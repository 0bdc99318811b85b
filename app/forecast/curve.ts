/** Any level at any instant: of one tank, or of several together. */
import { DAY_MS } from "../ground/quantity.ts";
import { levelAfter } from "../storage/level.ts";
import type { LevelSegment } from "../storage/segment.ts";

/** Level within one segment, kg. The instant may be its end. */
export const levelWithin = (segment: LevelSegment, at: number): number =>
  levelAfter(
    segment.m0Kg,
    segment.kPerDay,
    segment.cKgPerDay - segment.fKgPerDay,
    Math.max(0, Math.min(at, segment.endAt) - segment.startAt) / DAY_MS,
  );

/** Index of the last segment that starts at or before an instant (or before it, if `isBefore`); −1: none. */
const lastStarted = (segments: readonly LevelSegment[], at: number, isBefore: boolean): number => {
  let low = 0;
  let high = segments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const startAt = segments[middle]?.startAt ?? Infinity;
    if (isBefore ? startAt < at : startAt <= at) low = middle + 1;
    else high = middle;
  }
  return low - 1;
};

/**
 * Level at an instant, after all that happens then, kg. Before the first segment its opening level, after the last its
 * closing one; 0 for no segments.
 */
export const levelAt = (segments: readonly LevelSegment[], at: number): number => {
  const segment = segments[lastStarted(segments, at, false)];
  return segment === undefined ? (segments[0]?.m0Kg ?? 0) : levelWithin(segment, at);
};

/** Level just before what happens at an instant: where it jumps, the foot of the jump. kg */
export const levelBefore = (segments: readonly LevelSegment[], at: number): number => {
  const segment = segments[lastStarted(segments, at, true)];
  return segment === undefined ? (segments[0]?.m0Kg ?? 0) : levelWithin(segment, at);
};

/** A stretch of time over which no tank's segment changes: the sum of its parts has no jump or bend within. */
export interface SummedStretch {
  readonly startAt: number;
  readonly endAt: number;
  readonly parts: readonly LevelSegment[];
}

/** The sum of several tanks, cut where any of them has an event: "the propellant at the depot". */
export const sumLevels = (tanks: readonly (readonly LevelSegment[])[]): readonly SummedStretch[] => {
  const edges = new Set<number>();
  for (const segments of tanks) for (const segment of segments) edges.add(segment.startAt).add(segment.endAt);
  const instants = [...edges].sort((a, b) => a - b);
  const places = tanks.map(() => 0);
  const stretches: SummedStretch[] = [];
  instants.slice(0, -1).forEach((startAt, index) => {
    const endAt = instants[index + 1] ?? startAt;
    const parts: LevelSegment[] = [];
    tanks.forEach((segments, tank) => {
      let place = places[tank] ?? 0;
      while ((segments[place]?.endAt ?? Infinity) <= startAt) place += 1;
      places[tank] = place;
      const segment = segments[place];
      if (segment !== undefined && segment.startAt <= startAt) parts.push(segment);
    });
    stretches.push({ startAt, endAt, parts });
  });
  return stretches;
};

/** Level of a stretch at an instant within it, kg. */
export const stretchLevel = (stretch: SummedStretch, at: number): number =>
  stretch.parts.reduce((sum, segment) => sum + levelWithin(segment, at), 0);
