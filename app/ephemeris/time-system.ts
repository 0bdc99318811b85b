/** Epochs of a message in its time system, as TAI, which runs evenly, and back to UTC, by which the ledger counts. */
import { endsWithLeapSecond, taiOfUtc } from "./leap-seconds.ts";

export const timeSystems = ["UTC", "TAI", "TT", "TDB"] as const;
export type TimeSystem = (typeof timeSystems)[number];

/** TT − TAI, ms: by definition. */
const TT_AHEAD_MS = 32_184;

/**
 * TDB − TT, ms: 1.657 sin g, g = 6.2401 + 628.3076 T, T in Julian centuries since J2000 (main term of the series in
 * USNO Circular 179 (2005), eq. 2.6; from memory). What is left out stays below 0.03 ms.
 */
const tdbAheadMs = (ttMs: number): number => {
  const centuries = (ttMs - Date.UTC(2000, 0, 1, 12)) / (36_525 * 86_400_000);
  return 1.657 * Math.sin(6.2401 + 628.3076 * centuries);
};

const CALENDAR = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2}):(\d{2}(?:\.\d+)?)Z?$/u;
const DAY_OF_YEAR = /^(\d{4})-(\d{3})T(\d{2}):(\d{2}):(\d{2}(?:\.\d+)?)Z?$/u;

interface Clock {
  readonly dayMs: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

const clockOf = (dayMs: number, [hour, minute, second]: readonly number[]): Clock | null => {
  const clock = { dayMs, hour: hour ?? 24, minute: minute ?? 60, second: second ?? 61 };
  return Number.isFinite(dayMs) && clock.hour < 24 && clock.minute < 60 && clock.second < 61 ? clock : null;
};

/** A date that there is, at its midnight; NaN otherwise. */
const midnightOf = (year: number, month: number, day: number): number => {
  const at = Date.UTC(year, month - 1, day);
  const back = new Date(at);
  return back.getUTCMonth() === month - 1 && back.getUTCDate() === day ? at : Number.NaN;
};

const parse = (text: string): Clock | null => {
  const calendar = CALENDAR.exec(text)?.slice(1).map(Number);
  if (calendar) {
    const [year = 0, month = 0, day = 0, ...rest] = calendar;
    return clockOf(midnightOf(year, month, day), rest);
  }
  const ordinal = DAY_OF_YEAR.exec(text)?.slice(1).map(Number);
  if (!ordinal) return null;
  const [year = 0, day = 0, ...rest] = ordinal;
  const at = Date.UTC(year, 0, day);
  return clockOf(day >= 1 && new Date(at).getUTCFullYear() === year ? at : Number.NaN, rest);
};

/**
 * An epoch in ASCII time code A or B of CCSDS 301.0-B ("2031-01-01T00:00:00.5" or "2031-001T00:00:00.5") as TAI in ms;
 * null: it is none. A second of 60 there is in UTC alone, and only where a leap second was.
 */
export const taiOfEpoch = (text: string, system: TimeSystem): number | null => {
  const clock = parse(text);
  if (clock === null) return null;
  const minuteMs = clock.dayMs + (clock.hour * 60 + clock.minute) * 60_000;
  const at = minuteMs + clock.second * 1000;
  if (system === "UTC") {
    if (clock.second < 60) return taiOfUtc(at);
    return endsWithLeapSecond(minuteMs + 60_000) ? taiOfUtc(at - 1000) + 1000 : null;
  }
  if (clock.second >= 60) return null;
  if (system === "TAI") return at;
  return at - TT_AHEAD_MS - (system === "TDB" ? tdbAheadMs(at) : 0);
};
