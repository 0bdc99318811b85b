/** An iCalendar (RFC 5545) as events with instants in UTC: zones of the file, zones by name, times without a zone, whole days. */
import ICAL from "ical.js";
import { findIana } from "windows-iana";
import { PlanningError } from "../../ground/failure.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { beginOfDays, type CalendarForms, endOfDays, inZone } from "./calendar-forms.ts";
import { readDate } from "../../format/read-date.ts";

export interface CalendarEvent {
  /** Line of the file on which it begins, from 1. */
  readonly line: number;
  readonly uid: string;
  readonly summary: string;
  /** All that may name a craft or a place: summary, location, description. */
  readonly words: string;
  readonly startAt: number | null;
  /** null: the event says no end. */
  readonly endAt: number | null;
  readonly isWholeDays: boolean;
  /** Its times bear no zone and were read in the zone that was said; as UTC where none was. */
  readonly isFloating: boolean;
  readonly isCancelled: boolean;
  /** null: the event says nothing of it. */
  readonly isConfirmed: boolean | null;
  readonly faults: readonly string[];
}

interface When {
  readonly at: number;
  readonly isDate: boolean;
  readonly isFloating: boolean;
}

const WHEN: Readonly<Record<string, string>> = { dtstart: "start", dtend: "end" };

/** Throws a sentence as an Error where the value names no instant. */
const whenOf = (event: ICAL.Component, name: "dtstart" | "dtend", forms: CalendarForms): When | null => {
  const property = event.getFirstProperty(name);
  if (property === null) return null;
  const value: unknown = property.getFirstValue();
  const written = String(property.jCal[3]);
  // Strict: the library would take 31 February for 3 March.
  const wallAt = readDate(written.replace(/Z$/, ""), "year first");
  if (!(value instanceof ICAL.Time) || wallAt === null)
    throw new Error(`Its ${WHEN[name]} “${written.slice(0, 40)}” is not a date.`);
  if (value.isDate) {
    const at = name === "dtstart" ? beginOfDays(wallAt, forms) : endOfDays(wallAt, forms);
    return { at, isDate: true, isFloating: false };
  }
  if (value.zone !== ICAL.Timezone.localTimezone)
    return { at: value.toUnixTime() * 1000, isDate: false, isFloating: false };
  const zone = property.getFirstParameter("tzid");
  if (zone === undefined || zone === null || zone === "")
    return { at: inZone(wallAt, forms.zone ?? "UTC"), isDate: false, isFloating: true };
  try {
    // Mail programs of one large system name zones in its own words: "W. Europe Standard Time".
    const named = findIana(zone)[0] ?? zone;
    return { at: inZone(wallAt, named), isDate: false, isFloating: false };
  } catch {
    throw new Error(
      `The time zone “${zone.slice(0, 40)}” is not described in the file, and is no zone that is known by name.`,
    );
  }
};

const endOf = (event: ICAL.Component, start: When | null, forms: CalendarForms): number | null => {
  const end = whenOf(event, "dtend", forms);
  if (end !== null) return end.at;
  const duration: unknown = event.getFirstPropertyValue("duration");
  if (start === null) return null;
  const spanMs = duration instanceof ICAL.Duration ? duration.toSeconds() * 1000 : start.isDate ? DAY_MS : null;
  if (spanMs === null) return null;
  if (!start.isDate) return start.at + spanMs;
  const at = endOfDays(start.at - beginOfDays(0, forms) + spanMs, forms);
  // One day that begins and ends at one instant says no end.
  return at > start.at ? at : null;
};

const textOf = (event: ICAL.Component, name: string): string => {
  const value: unknown = event.getFirstPropertyValue(name);
  return typeof value === "string" ? value : "";
};

const eventOf = (event: ICAL.Component, line: number, isWithdrawn: boolean, forms: CalendarForms): CalendarEvent => {
  const faults: string[] = [];
  let start: When | null = null;
  let endAt: number | null = null;
  try {
    start = whenOf(event, "dtstart", forms);
    endAt = endOf(event, start, forms);
    if (start === null) faults.push("It has no start.");
  } catch (error) {
    faults.push(error instanceof Error ? error.message : String(error));
  }
  if (event.getFirstProperty("rrule") !== null || event.getFirstProperty("rdate") !== null)
    faults.push("It repeats; a flight flies once. Make an event of its own for each.");
  if (event.getFirstProperty("recurrence-id") !== null)
    faults.push("It is one of a series of events; a flight flies once.");
  const status = textOf(event, "status").toUpperCase();
  const summary = textOf(event, "summary");
  return {
    line,
    uid: textOf(event, "uid"),
    summary,
    words: [summary, textOf(event, "location"), textOf(event, "description")].join("\n"),
    startAt: start?.at ?? null,
    endAt,
    isWholeDays: start?.isDate ?? false,
    isFloating: start?.isFloating ?? false,
    isCancelled: isWithdrawn || status === "CANCELLED",
    isConfirmed: status === "" ? null : status === "CONFIRMED",
    faults,
  };
};

/** Lines on which events begin, in their order. */
const eventLines = (text: string): readonly number[] =>
  text.split(/\r\n|\n|\r/).flatMap((line, index) => (/^BEGIN:VEVENT\s*$/i.test(line) ? [index + 1] : []));

export const MAX_EVENTS = 20_000;

/** Whether a text is meant to be a calendar. */
export const isCalendar = (text: string): boolean => /^\uFEFF?\s*BEGIN:VCALENDAR/i.test(text.slice(0, 200));

/** Throws "invalid input" for a text that is no calendar, is cut off, has no events or far too many. */
export const readEvents = (text: string, forms: CalendarForms): readonly CalendarEvent[] => {
  const refused = (message: string) => new PlanningError("invalid input", message, "content");
  const lines = eventLines(text);
  if (lines.length > MAX_EVENTS)
    throw refused(`The calendar has ${lines.length} events; ${MAX_EVENTS} at most are taken at a time.`);
  let calendars: readonly ICAL.Component[];
  try {
    const parsed = ICAL.parse(text.replace(/^\uFEFF/, "").trim()) as unknown[];
    calendars = (Array.isArray(parsed[0]) ? parsed : [parsed]).map((each) => new ICAL.Component(each as never));
  } catch (error) {
    const isCut = error instanceof Error && /did not end/.test(error.message);
    throw refused(
      isCut
        ? "The calendar is cut off: it begins and does not end. Save or export it again."
        : `This is not a calendar in the iCalendar form: ${error instanceof Error ? error.message.slice(0, 120) : ""}.`,
    );
  }
  const events = calendars.flatMap((calendar) => {
    const isWithdrawn = String(calendar.getFirstPropertyValue("method") ?? "").toUpperCase() === "CANCEL";
    return calendar.getAllSubcomponents("vevent").map((event) => ({ event, isWithdrawn }));
  });
  if (events.length === 0) throw refused("The calendar has no events.");
  return events.map(({ event, isWithdrawn }, index) => eventOf(event, lines[index] ?? 1, isWithdrawn, forms));
};
