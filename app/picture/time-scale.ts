/** The time axis: instants to pixels, and zoom and pan as changes of the stretch shown. */
import { DAY_MS } from "../ground/quantity.ts";

export interface TimeScale {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly left: number;
  readonly right: number;
  /** Pixel of an instant. */
  readonly x: (at: number) => number;
  /** Instant at a pixel, a fraction of a millisecond not rounded. */
  readonly at: (x: number) => number;
  readonly pixelsPerDay: number;
}

/** A linear scale of UTC instants; `untilAt` is after `fromAt`. */
export const timeScale = (fromAt: number, untilAt: number, left: number, right: number): TimeScale => {
  const slope = (right - left) / (untilAt - fromAt);
  return {
    fromAt,
    untilAt,
    left,
    right,
    x: (at) => left + (at - fromAt) * slope,
    at: (x) => fromAt + (x - left) / slope,
    pixelsPerDay: slope * DAY_MS,
  };
};

export interface Stretch {
  readonly fromAt: number;
  readonly untilAt: number;
}

/** The shortest stretch that zooming reaches: half a day. */
export const SHORTEST_MS = DAY_MS / 2;

/** Keeps a stretch inside the whole, its length first. */
export const clampStretch = (stretch: Stretch, whole: Stretch): Stretch => {
  const most = whole.untilAt - whole.fromAt;
  const length = Math.min(most, Math.max(Math.min(SHORTEST_MS, most), stretch.untilAt - stretch.fromAt));
  const fromAt = Math.min(Math.max(stretch.fromAt, whole.fromAt), whole.untilAt - length);
  return { fromAt, untilAt: fromAt + length };
};

/** Zooms by a factor (above 1: closer) with one instant held where it is. */
export const zoomAbout = (stretch: Stretch, at: number, factor: number, whole: Stretch): Stretch => {
  const length = Math.max(
    (stretch.untilAt - stretch.fromAt) / factor,
    Math.min(SHORTEST_MS, whole.untilAt - whole.fromAt),
  );
  const share = (at - stretch.fromAt) / (stretch.untilAt - stretch.fromAt);
  const fromAt = at - share * length;
  return clampStretch({ fromAt, untilAt: fromAt + length }, whole);
};

export const panBy = (stretch: Stretch, ms: number, whole: Stretch): Stretch =>
  clampStretch({ fromAt: stretch.fromAt + ms, untilAt: stretch.untilAt + ms }, whole);
