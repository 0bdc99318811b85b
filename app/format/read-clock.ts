/** Times of day that stand in a column of their own, beside their date: "14:05", "2:05 pm", "06:00+02:00". */
import { DAY_MS } from "../ground/quantity.ts";

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;
/** A spreadsheet's time of day, shown as a date: the days up to 1900-01-01, from which its calendars count. */
const LAST_DATELESS = Date.UTC(1900, 0, 2);

const CLOCK = /^T?(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?\s*(am|pm)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2})?$/i;

const zoneMs = (zone: string): number => {
  const found = /^([+-])(\d{2}):?(\d{2})$/.exec(zone);
  if (found === null) return 0;
  const size = Number(found[2]) * HOUR_MS + Number(found[3]) * MINUTE_MS;
  return found[1] === "-" ? -size : size;
};

const hourOf = (written: number, half: string): number => {
  if (half === "") return written;
  if (written < 1 || written > 12) return Number.NaN;
  return (written % 12) + (half === "pm" ? 12 : 0);
};

/**
 * Milliseconds from the midnight (UTC) of its date; null: not a time of day. Without a zone it is UTC; with one it may lie
 * before its date's midnight, or a day after it. 24:00 is the end of the day (ISO 8601).
 */
export const readClock = (text: string): number | null => {
  const found = CLOCK.exec(text.trim());
  if (found === null) return null;
  const hour = hourOf(Number(found[1]), (found[5] ?? "").toLowerCase());
  const [minute, second] = [Number(found[2]), Number(found[3] ?? 0)];
  const milliseconds = Math.round(Number(`0.${found[4] ?? "0"}`) * 1000);
  if (!(hour <= 24) || minute > 59 || second > 59) return null;
  if (hour === 24 && minute + second + milliseconds > 0) return null;
  return hour * HOUR_MS + minute * MINUTE_MS + second * 1000 + milliseconds - zoneMs(found[6] ?? "");
};

/** The time of day that a workbook's cell holds; null: a date, or a figure that is none. */
export const clockOfCell = (cell: number | Date): number | null => {
  if (typeof cell === "number") return cell >= 0 && cell < 1 ? Math.round(cell * DAY_MS) : null;
  const at = cell.getTime();
  return at < LAST_DATELESS ? ((at % DAY_MS) + DAY_MS) % DAY_MS : null;
};
