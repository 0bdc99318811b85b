/** Dates and times as tables write them, as instants in UTC, read strictly: 31 February and 25 o'clock are none. */
import { DAY_MS } from "../ground/quantity.ts";

/** In which order a date names year, month and day; "serial": days since 1899-12-30, as spreadsheets count. */
export const dateForms = ["year first", "day first", "month first", "serial"] as const;
export type DateForm = (typeof dateForms)[number];

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;
/** Serial 25,569 of a spreadsheet's 1900 system is 1970-01-01. */
const SERIAL_OF_1970 = 25_569;
const FIRST_SERIAL = SERIAL_OF_1970;
/** 2200-01-01 */
const LAST_SERIAL = 109_575;

const TIME = String.raw`(?:[T\s,]+(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?)?`;
const YEAR_FIRST = new RegExp(String.raw`^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})${TIME}$`, "i");
const YEAR_LAST = new RegExp(String.raw`^(\d{1,2})([-/.])(\d{1,2})\2(\d{4})${TIME}$`, "i");
const NAMED = new RegExp(String.raw`^(\d{1,2})[-\s.]+([a-z]{3,9})\.?[-\s,]+(\d{4})${TIME}$`, "i");

const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const fullMonths = [
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
];

const monthOf = (word: string): number => {
  const plain = word.toLowerCase();
  const short = plain === "sept" ? 8 : months.indexOf(plain);
  return short >= 0 ? short : fullMonths.indexOf(plain);
};

const zoneMs = (zone: string | undefined): number => {
  const found = /^([+-])(\d{2}):?(\d{2})$/.exec(zone ?? "");
  if (found === null) return 0;
  const size = Number(found[2]) * HOUR_MS + Number(found[3]) * MINUTE_MS;
  return found[1] === "-" ? -size : size;
};

/** `month` from 0. 24:00 is the end of its day (ISO 8601). */
const instantOf = (year: number, month: number, day: number, time: readonly (string | undefined)[]): number | null => {
  const midnight = Date.UTC(year, month, day);
  const date = new Date(midnight);
  if (date.getUTCMonth() !== month || date.getUTCDate() !== day) return null;
  const [hour, minute, second] = time.slice(0, 3).map((part) => Number(part ?? 0)) as [number, number, number];
  const milliseconds = Math.round(Number(`0.${time[3] ?? "0"}`) * 1000);
  if (hour > 24 || minute > 59 || second > 59) return null;
  if (hour === 24 && minute + second + milliseconds > 0) return null;
  return midnight + hour * HOUR_MS + minute * MINUTE_MS + second * 1000 + milliseconds - zoneMs(time[4]);
};

/** The instant of a spreadsheet's serial number, to the millisecond; null: before 1970 or after 2199. */
export const instantOfSerial = (serial: number): number | null =>
  serial >= FIRST_SERIAL && serial < LAST_SERIAL ? Math.round((serial - SERIAL_OF_1970) * DAY_MS) : null;

/** The number that `count` digits from `from` on make; NaN where there is something else. */
const digits = (text: string, from: number, count: number): number => {
  let value = 0;
  for (let index = from; index < from + count; index += 1) {
    const digit = text.charCodeAt(index) - 48;
    if (!(digit >= 0 && digit <= 9)) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
};

const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const daysIn = (year: number, month: number): number =>
  month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : (DAYS_IN_MONTH[month - 1] ?? 0);

/** "2031-02-20T14:05Z", with seconds and milliseconds at will: what files of a hundred thousand rows have. null: another form. */
const readPlainIso = (text: string): number | null => {
  const { length } = text;
  if (!(length === 17 || length === 20 || length === 24) || text[length - 1] !== "Z") return null;
  if (text[4] !== "-" || text[7] !== "-" || text[10] !== "T" || text[13] !== ":") return null;
  const [year, month, day] = [digits(text, 0, 4), digits(text, 5, 2), digits(text, 8, 2)];
  const [hour, minute] = [digits(text, 11, 2), digits(text, 14, 2)];
  const second = length === 17 ? 0 : text[16] === ":" ? digits(text, 17, 2) : Number.NaN;
  const millisecond = length < 24 ? 0 : text[19] === "." ? digits(text, 20, 3) : Number.NaN;
  if (!(day >= 1 && day <= daysIn(year, month) && hour < 24 && minute < 60 && second < 60 && millisecond >= 0))
    return null;
  return Date.UTC(year, month - 1, day, hour, minute, second, millisecond);
};

/**
 * The instant that the text names; null: none. ISO 8601 and dates with the month's name are read in every form; times
 * without a zone are UTC. "3/4/2031" needs to be told whether the day or the month stands first.
 */
export const readDate = (text: string, form: DateForm): number | null => {
  const plain = readPlainIso(text);
  if (plain !== null) return plain;
  const trimmed = text.trim();
  const iso = YEAR_FIRST.exec(trimmed);
  if (iso !== null) return instantOf(Number(iso[1]), Number(iso[3]) - 1, Number(iso[4]), iso.slice(5));
  const named = NAMED.exec(trimmed);
  if (named !== null) {
    const month = monthOf(named[2] ?? "");
    return month < 0 ? null : instantOf(Number(named[3]), month, Number(named[1]), named.slice(4));
  }
  const last = YEAR_LAST.exec(trimmed);
  if (last !== null && (form === "day first" || form === "month first")) {
    const [one, two] = [Number(last[1]), Number(last[3])];
    const [day, month] = form === "day first" ? [one, two] : [two, one];
    return instantOf(Number(last[4]), month - 1, day, last.slice(5));
  }
  return form === "serial" && /^\d{5,6}([.,]\d+)?$/.test(trimmed)
    ? instantOfSerial(Number(trimmed.replace(",", ".")))
    : null;
};

/** Which form the dates speak for; null: none of them says, or they contradict each other. */
export const dateFormOf = (texts: Iterable<string>): DateForm | null => {
  let [dayFirst, monthFirst, unclear, serial, other] = [0, 0, 0, 0, 0];
  let dots = 0;
  for (const text of texts) {
    const last = YEAR_LAST.exec(text.trim());
    if (last === null) {
      if (/^\d{5,6}([.,]\d+)?$/.test(text.trim())) serial += 1;
      else if (text.trim() !== "") other += 1;
      continue;
    }
    if (last[2] === ".") dots += 1;
    if (Number(last[1]) > 12) dayFirst += 1;
    else if (Number(last[3]) > 12) monthFirst += 1;
    else unclear += 1;
  }
  if (dayFirst > 0 && monthFirst > 0) return null;
  // Dates parted by points begin with the day wherever they are written so.
  if (dayFirst > 0 || (dots > 0 && monthFirst === 0)) return "day first";
  if (monthFirst > 0) return "month first";
  if (unclear > 0) return null;
  return serial > 0 && other === 0 ? "serial" : "year first";
};
