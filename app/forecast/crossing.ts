/** From when to when a level stands below a line. */
import { DAY_MS } from "../ground/quantity.ts";
import { type SummedStretch, levelWithin, stretchLevel } from "./curve.ts";
import { daysToLevel } from "../storage/level.ts";

/** A time below a line, and its lowest point. untilAt null: to the end. */
export interface TimeBelow {
  readonly fromAt: number;
  readonly untilAt: number | null;
  readonly lowestKg: number;
  readonly lowestAt: number;
}

/** Finer than this, ms, nobody asks. */
const FINEST_MS = 0.5;

/** Instants within a stretch at which its level passes the line, in order. */
const crossings = (stretch: SummedStretch, lineKg: number): readonly number[] => {
  const [only] = stretch.parts;
  if (only !== undefined && stretch.parts.length === 1) {
    const start = levelWithin(only, stretch.startAt);
    const days = daysToLevel(start, only.kPerDay, only.cKgPerDay - only.fKgPerDay, lineKg);
    const at = stretch.startAt + (days ?? Infinity) * DAY_MS;
    return days !== null && days > 0 && at < stretch.endAt ? [at] : [];
  }
  // Each tank's level runs one way over the stretch, so the ends of every part bound the sum between them.
  const found: number[] = [];
  const search = (from: number, to: number): void => {
    let least = 0;
    let most = 0;
    for (const part of stretch.parts) {
      const a = levelWithin(part, from);
      const b = levelWithin(part, to);
      least += Math.min(a, b);
      most += Math.max(a, b);
    }
    if (least >= lineKg || most < lineKg) return;
    if (to - from > FINEST_MS) {
      search(from, (from + to) / 2);
      search((from + to) / 2, to);
    } else if (stretchLevel(stretch, from) < lineKg !== stretchLevel(stretch, to) < lineKg) found.push(to);
  };
  search(stretch.startAt, stretch.endAt);
  return found;
};

/** All times at which the level is below a line by more than `toleranceKg`. Exact for one tank, to 0.5 ms for several. */
export const timesBelow = (
  stretches: readonly SummedStretch[],
  lineKg: number,
  toleranceKg: number,
): readonly TimeBelow[] => {
  const times: { fromAt: number; untilAt: number | null; lowestKg: number; lowestAt: number }[] = [];
  let isOpen = false;
  for (const stretch of stretches) {
    const cuts = [stretch.startAt, ...crossings(stretch, lineKg), stretch.endAt];
    cuts.slice(0, -1).forEach((from, index) => {
      const to = cuts[index + 1] ?? from;
      const isBelow = stretchLevel(stretch, (from + to) / 2) < lineKg - toleranceKg;
      const last = times.at(-1);
      if (isBelow && !isOpen) times.push({ fromAt: from, untilAt: null, lowestKg: Infinity, lowestAt: from });
      if (!isBelow && isOpen && last !== undefined) last.untilAt = from;
      isOpen = isBelow;
      const open = times.at(-1);
      if (!isBelow || open === undefined) return;
      for (const at of [from, to]) {
        const level = stretchLevel(stretch, at);
        if (level >= open.lowestKg) continue;
        open.lowestKg = level;
        open.lowestAt = at;
      }
    });
  }
  return times;
};
