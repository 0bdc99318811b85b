/** Instants as ISO dates in UTC; the weekday is for the tooltip. */
import { DAY_MS } from "../ground/quantity.ts";
import { MINUS, NARROW_SPACE, formatNumber, withUnit } from "./number.ts";

const weekdays = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"] as const;

/** `2031-02-24` */
export const formatDate = (at: number): string => new Date(at).toISOString().slice(0, 10);

/** `2031-02-24 06:30`; at midnight the date alone. */
export const formatInstant = (at: number): string => {
  const iso = new Date(at).toISOString();
  const time = iso.slice(11, 16);
  return time === "00:00" ? iso.slice(0, 10) : `${iso.slice(0, 10)} ${time}`;
};

/** `Monday 2031-02-24 06:30 UTC` */
export const formatWithWeekday = (at: number): string => {
  const iso = new Date(at).toISOString();
  return `${weekdays[new Date(at).getUTCDay()] ?? ""} ${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;
};

/** `02-24`, for a sentence in which the year is plain. */
export const formatMonthDay = (at: number): string => new Date(at).toISOString().slice(5, 10);

/** A span: `6 days`, `1 day`, `4.5 days`, `3 h`, `20 min`. */
export const formatSpan = (ms: number): string => {
  const sign = ms < 0 ? MINUS : "";
  const size = Math.abs(ms);
  if (size < 3_600_000) return `${sign}${Math.round(size / 60_000)}${NARROW_SPACE}min`;
  if (size < DAY_MS) return `${sign}${trim(size / 3_600_000)}${NARROW_SPACE}h`;
  const text = trim(size / DAY_MS);
  return withUnit(`${sign}${text}`, text === "1" ? "day" : "days");
};

const trim = (value: number): string => formatNumber(value, 1).replace(/\.0$/, "");
