/** What a calendar leaves open, and only a person can say: the zone of floating times, the time of day of whole-day events. */
import { CalendarDateTime, toZoned } from "@internationalized/date";
import { z } from "zod";
import { PlanningError } from "../../ground/failure.ts";
import { DAY_MS } from "../../ground/quantity.ts";

const CLOCK = /^([01]\d|2[0-3]):([0-5]\d)$/;

/** From the midnight that begins the first day to the one that ends the last. */
export const MIDNIGHTS = "midnights";

/** null: not said; it is asked where an event needs it. */
export const calendarForms = z.strictObject({
  /** Zone of times that bear none: "UTC", or a name of the IANA database. */
  zone: z.string().min(1).max(60).nullable(),
  /** "midnights", or the time of day (UTC) at which an event begins on its first day and ends on its last: "06:00". */
  wholeDays: z.union([z.literal(MIDNIGHTS), z.string().regex(CLOCK, "a time of day is written as 06:00")]).nullable(),
});
export type CalendarForms = Readonly<z.infer<typeof calendarForms>>;

export const noForms: CalendarForms = { zone: null, wholeDays: null };

/** A wall clock's time, as if it were UTC, in a zone: as RFC 5545 says (the first of a doubled hour). Throws for no zone. */
export const inZone = (wallAt: number, zone: string): number => {
  if (zone === "UTC") return wallAt;
  const wall = new Date(wallAt);
  return toZoned(
    new CalendarDateTime(
      wall.getUTCFullYear(),
      wall.getUTCMonth() + 1,
      wall.getUTCDate(),
      wall.getUTCHours(),
      wall.getUTCMinutes(),
      wall.getUTCSeconds(),
    ),
    zone,
  )
    .toDate()
    .getTime();
};

/** Throws "invalid input" for a zone that is not known. */
export const checkZone = (zone: string | null): void => {
  if (zone === null) return;
  try {
    inZone(0, zone);
  } catch {
    throw new PlanningError(
      "invalid input",
      `“${zone.slice(0, 40)}” is not a time zone that is known by name. Write UTC, or a name such as Europe/Paris.`,
      "calendar.zone",
    );
  }
};

/** Milliseconds from midnight; 0 where midnights are meant. */
const clockMs = (wholeDays: string | null): number => {
  const found = CLOCK.exec(wholeDays ?? "");
  return found === null ? 0 : Number(found[1]) * 3_600_000 + Number(found[2]) * 60_000;
};

/** When an event of whole days begins, given the midnight of its first day. */
export const beginOfDays = (midnight: number, { wholeDays }: CalendarForms): number => midnight + clockMs(wholeDays);

/** When it ends, given the midnight after its last day (RFC 5545: the end of an event is not within it). */
export const endOfDays = (midnight: number, { wholeDays }: CalendarForms): number =>
  wholeDays === null || wholeDays === MIDNIGHTS ? midnight : midnight - DAY_MS + clockMs(wholeDays);
