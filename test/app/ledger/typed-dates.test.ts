/** Dates as people type them in forms and on the command line. */
import { expect, it } from "vitest";
import { parseInstant, readInstant } from "../../../app/format/time.ts";

const june = Date.UTC(2031, 5, 1);

it.each(["2031-06-01", "2031-6-1", "1 Jun 2031", "1 June 2031", "01-Jun-2031", "2031/06/01", "2031-06-01 00:00"])(
  "“%s” is 1 June 2031",
  (text) => expect(readInstant(text)).toBe(june),
);

it.each(["6/1/2031", "1.6.2031", "2031-02-31", "31 Feb 2031", "2031", "June 2031", "17,000"])(
  "“%s” is refused: it is none, or day and month could be meant either way",
  (text) => expect(() => parseInstant(text, "--at")).toThrow(/is not a date/),
);
