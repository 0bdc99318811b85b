/** Instants as people and files write them: ISO 8601 in UTC, read strictly. */
import { UTCDate, utc } from "@date-fns/utc";
import { format, isValid, parseISO } from "date-fns";
import { readDate } from "./read-date.ts";
import { PlanningError } from "../ground/failure.ts";

const FORM = /^\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?(?:Z|[+-]\d{2}:\d{2})?)?$/;

/** "2031-02-20" */
export const formatDate = (at: number): string => format(new UTCDate(at), "yyyy-MM-dd");

/** "2031-02-20 14:05 UTC" */
export const formatMinute = (at: number): string => `${format(new UTCDate(at), "yyyy-MM-dd HH:mm")} UTC`;

/** "2031-02-20T14:05:00.000Z": exact, and what {@link parseInstant} takes back. */
export const formatInstant = (at: number): string => new UTCDate(at).toISOString();

/**
 * The instant that a date names as people write it where day and month cannot be taken for one another: an ISO date ("2031-02-20", midnight) or date and time ("2031-02-20T14:05Z"; without a zone it is
 * UTC) names, "2031-6-1",
 * "1 Jun 2031"; null when the text has another form or names no instant (31 February, 25 o'clock).
 */
export const readInstant = (text: string): number | null => {
  if (!FORM.test(text)) return readDate(text, "year first");
  const date = parseISO(text.replace(" ", "T"), { in: utc });
  return isValid(date) ? date.getTime() : null;
};

/** As {@link readInstant}, but throws `invalid input` for `field`. */
export const parseInstant = (text: string, field: string | null = null): number => {
  const at = readInstant(text);
  if (at === null)
    throw new PlanningError(
      "invalid input",
      `“${text.slice(0, 40)}” is not a date. Write 2031-02-20 or 2031-02-20T14:05Z (UTC).`,
      field,
    );
  return at;
};
