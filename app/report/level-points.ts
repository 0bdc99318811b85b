/** The curve of several tanks together, as points: exact at every event, close enough between them for any paper. */
import { levelAfter } from "../storage/level.ts";
import type { LevelHistory, LevelSegment } from "../storage/segment.ts";
import { DAY_MS } from "../ground/quantity.ts";

/** A point of a curve: instant and kg. Two points at one instant make a vertical. */
export type LevelPoint = readonly [at: number, massKg: number];

/** Points inside a stretch without events: a decay curve over a few weeks bends little. */
const MAX_STEP_MS = 10 * DAY_MS;

/**
 * Sum of the levels of `histories`, kg, from `fromAt` to `untilAt`. At an event both the level before and after it
 * stand at the same instant, so the line is vertical there.
 */
export const totalPoints = (
  histories: readonly LevelHistory[],
  fromAt: number,
  untilAt: number,
): readonly LevelPoint[] => {
  const segments = histories.map((history) =>
    history.segments.filter((each) => each.endAt > fromAt && each.startAt < untilAt),
  );
  if (segments.every((each) => each.length === 0)) return [];
  const edges = new Set<number>();
  for (const each of segments.flat()) {
    edges.add(Math.max(fromAt, each.startAt));
    edges.add(Math.min(untilAt, each.endAt));
  }
  const instants = [...edges].sort((a, b) => a - b);
  return instants.slice(0, -1).flatMap((startAt, index) => {
    const endAt = instants[index + 1] ?? startAt;
    const active = segments.map((each) => each.find((segment) => segment.startAt <= startAt && segment.endAt >= endAt));
    const steps = Math.max(1, Math.ceil((endAt - startAt) / MAX_STEP_MS));
    return Array.from({ length: steps + 1 }, (_, step): LevelPoint => {
      const at = startAt + ((endAt - startAt) * step) / steps;
      return [at, active.reduce((sum, segment) => sum + (segment ? levelOn(segment, at) : 0), 0)];
    });
  });
};

const levelOn = (segment: LevelSegment, at: number): number =>
  levelAfter(segment.m0Kg, segment.kPerDay, segment.cKgPerDay - segment.fKgPerDay, (at - segment.startAt) / DAY_MS);
