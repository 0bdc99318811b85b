/**
 * Departure windows of a depot's orbit, in the one place where they are computed: once a revolution, at whole periods from
 * a reference instant, or as a list that a trajectory team gives. Forecast, checks, resupply and risk all ask here.
 */
import type { Depot } from "./depot.ts";
import { DAY_MS } from "../ground/quantity.ts";

/** What of a depot says when its windows are. */
export type WindowRule = Pick<Depot, "windowPeriodDays" | "windowReferenceAt"> & Partial<Pick<Depot, "windowList">>;

/** Windows ready to be asked; null where a depot has none and a sortie may leave at any time. Plain data. */
export type Windows =
  | { readonly kind: "period"; readonly periodMs: number; readonly referenceAt: number }
  /** Rising instants. Before the first and after the last there is none. */
  | { readonly kind: "list"; readonly at: readonly number[] };

/** The windows of a depot; null: it has none. */
export const windowsOf = ({ windowPeriodDays, windowReferenceAt, windowList }: WindowRule): Windows | null => {
  if (windowList) return { kind: "list", at: windowList.at };
  if (windowPeriodDays === null || windowReferenceAt === null) return null;
  return { kind: "period", periodMs: windowPeriodDays * DAY_MS, referenceAt: windowReferenceAt };
};

/** The place of the first instant of a rising list that is at or after `at`. */
const placeFrom = (list: readonly number[], at: number): number => {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((list[middle] as number) < at) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** The first window at or after an instant; Infinity: a list holds none any more. */
export const windowFrom = (windows: Windows, at: number): number => {
  if (windows.kind === "list") return windows.at[placeFrom(windows.at, at)] ?? Infinity;
  const { periodMs, referenceAt } = windows;
  let n = Math.floor((at - referenceAt) / periodMs) - 1;
  while (referenceAt + Math.round(n * periodMs) < at) n += 1;
  return referenceAt + Math.round(n * periodMs);
};

/** The first window after an instant. Instants in a forecast may be broken parts of a millisecond. */
export const windowAfter = (windows: Windows, at: number): number => {
  const found = windowFrom(windows, at);
  return found > at ? found : windowFrom(windows, at + 1);
};

/** The first window at or after an instant; without windows the instant itself; Infinity: a list holds none any more. */
export const nextWindow = (depot: WindowRule, at: number): number => {
  const windows = windowsOf(depot);
  return windows === null ? at : windowFrom(windows, at);
};

/** Every window in [fromAt, untilAt]; empty for a depot that has none. */
export const windowsBetween = (depot: WindowRule, fromAt: number, untilAt: number): readonly number[] => {
  const windows = windowsOf(depot);
  if (windows === null) return [];
  if (windows.kind === "list") return windows.at.filter((at) => at >= fromAt && at <= untilAt);
  const found: number[] = [];
  for (let at = windowFrom(windows, fromAt); at <= untilAt; at = windowAfter(windows, at)) found.push(at);
  return found;
};
