/** Ticks of the time axis: the finest calendar step whose labels have room, and the step above it. */
import { utcDay, utcHour, utcMonth, utcYear, type CountableTimeInterval } from "d3-time";
import type { TimeScale } from "./time-scale.ts";

export interface TimeTick {
  readonly at: number;
  readonly x: number;
  readonly label: string;
}

export interface TimeTicks {
  /** Unlabelled or fine steps, with labels that do not touch. */
  readonly fine: readonly TimeTick[];
  /** The step above (year over months, month over days, day over hours). */
  readonly coarse: readonly TimeTick[];
}

interface Step {
  readonly days: number;
  /** Pixels that one label needs, with the gap to the next. */
  readonly room: number;
  readonly interval: CountableTimeInterval;
  readonly every: number;
  readonly label: (iso: string) => string;
  readonly above: CountableTimeInterval | null;
  readonly aboveLabel: (iso: string) => string;
}

const hour = (iso: string): string => iso.slice(11, 16);
const monthDay = (iso: string): string => iso.slice(5, 10);
const day = (iso: string): string => iso.slice(0, 10);
const month = (iso: string): string => iso.slice(0, 7);
const year = (iso: string): string => iso.slice(0, 4);

const hours = (every: number): Step => ({
  days: every / 24,
  room: 44,
  interval: utcHour,
  every,
  label: hour,
  above: utcDay,
  aboveLabel: day,
});
const months = (every: number): Step => ({
  days: 30.4 * every,
  room: 28,
  interval: utcMonth,
  every,
  label: (iso) => iso.slice(5, 7),
  above: utcYear,
  aboveLabel: year,
});
const years = (every: number): Step => ({
  days: 365.25 * every,
  room: 40,
  interval: utcYear,
  every,
  label: year,
  above: null,
  aboveLabel: year,
});
const days = (every: number): Step => ({
  days: every,
  room: 46,
  interval: utcDay,
  every,
  label: monthDay,
  above: utcMonth,
  aboveLabel: month,
});

const steps: readonly Step[] = [
  hours(1),
  hours(3),
  hours(6),
  days(1),
  days(2),
  days(7),
  days(14),
  months(1),
  months(3),
  months(6),
  years(1),
  years(2),
  years(5),
  years(10),
];

const ticksOf = (step: Step, scale: TimeScale): readonly number[] => {
  // Days are counted through the month (1, 3, 5 … or 1, 8, 15 …), so that a month begins with a tick.
  const isDays = step.interval === utcDay && step.every > 1;
  const filtered = step.every === 1 ? step.interval : isDays ? null : step.interval.every(step.every);
  // The last tick of a month keeps a whole step from the next month's first, in a leap year's February too.
  const every =
    filtered ??
    utcDay.filter(
      (date) =>
        (date.getUTCDate() - 1) % step.every === 0 &&
        utcDay.count(date, utcMonth.offset(utcMonth.floor(date), 1)) >= step.every,
    );
  return every.range(new Date(Math.ceil(scale.fromAt)), new Date(scale.untilAt + 1)).map((date) => date.getTime());
};

const ticked = (ats: readonly number[], scale: TimeScale, label: (iso: string) => string): readonly TimeTick[] =>
  ats.map((at) => ({ at, x: scale.x(at), label: label(new Date(at).toISOString()) }));

/** Both rows of ticks for a scale. The coarse row's first tick stands at the left edge if its period began before. */
export const timeTicks = (scale: TimeScale): TimeTicks => {
  const step = steps.find((candidate) => candidate.days * scale.pixelsPerDay >= candidate.room) ?? years(10);
  const fine = ticked(ticksOf(step, scale), scale, step.label);
  if (step.above === null) return { fine, coarse: [] };
  const first = step.above.floor(new Date(scale.fromAt)).getTime();
  const others = step.above
    .range(new Date(scale.fromAt + 1), new Date(scale.untilAt + 1))
    .map((date) => date.getTime());
  const coarse = ticked([first, ...others], scale, step.aboveLabel).map((tick) => ({
    ...tick,
    x: Math.max(tick.x, scale.left),
  }));
  return { fine, coarse };
};

/** Points that a month and a whole date take on paper, with the room beside them. */
const MONTH_ROOM = 38;
const DATE_ROOM = 54;

/** One row of whole dates for paper, as many as fit: a month's first day as the month. */
export const dateTicks = (scale: TimeScale): readonly TimeTick[] => {
  const step =
    steps.find(
      (candidate) =>
        candidate.days >= 1 &&
        candidate.days * scale.pixelsPerDay >= (candidate.interval === utcDay ? DATE_ROOM : MONTH_ROOM),
    ) ?? years(10);
  return ticked(ticksOf(step, scale), scale, (iso) => iso.slice(0, iso.slice(8, 10) === "01" ? 7 : 10));
};
