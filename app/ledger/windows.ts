/** Departure windows of a depot's orbit: open once a revolution, at whole periods from a reference instant. */
import type { Depot } from "./entity/depot.ts";
import { DAY_MS } from "./quantity.ts";

type Orbit = Pick<Depot, "windowPeriodDays" | "windowReferenceAt">;

/** The instant of window n (0 at the reference), to the millisecond. */
const windowAt = (referenceAt: number, periodDays: number, n: number): number =>
  referenceAt + Math.round(n * periodDays * DAY_MS);

/** The first window at or after an instant; without windows the instant itself. */
export const nextWindow = (depot: Orbit, at: number): number => {
  const { windowPeriodDays: period, windowReferenceAt: reference } = depot;
  if (period === null || reference === null) return at;
  const n = Math.floor((at - reference) / (period * DAY_MS)) - 1;
  for (let step = n; ; step += 1) {
    const window = windowAt(reference, period, step);
    if (window >= at) return window;
  }
};

/** Every window in [fromAt, untilAt]; empty for a depot that has none. */
export const windowsBetween = (depot: Orbit, fromAt: number, untilAt: number): readonly number[] => {
  if (depot.windowPeriodDays === null || depot.windowReferenceAt === null) return [];
  const windows: number[] = [];
  for (let at = nextWindow(depot, fromAt); at <= untilAt; at = nextWindow(depot, at + 1)) windows.push(at);
  return windows;
};
