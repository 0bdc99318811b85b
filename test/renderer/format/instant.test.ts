/** Instants as the page writes them. */
import { describe, expect, it } from "vitest";
import { formatDate, formatInstant, formatSpan, formatWithWeekday } from "../../../renderer/format/instant.ts";

const at = Date.UTC(2031, 1, 24, 6, 30);

describe("instants", () => {
  it("are ISO dates in UTC", () => expect(formatDate(at)).toBe("2031-02-24"));
  it("carry the time of day unless it is midnight", () => {
    expect(formatInstant(at)).toBe("2031-02-24 06:30");
    expect(formatInstant(Date.UTC(2031, 1, 24))).toBe("2031-02-24");
  });
  // 2000-01-01 was a Saturday, 2032-02-29 will be a Sunday (any calendar).
  it("name the weekday on hover", () => {
    expect(formatWithWeekday(Date.UTC(2000, 0, 1))).toBe("Saturday 2000-01-01 00:00 UTC");
    expect(formatWithWeekday(Date.UTC(2032, 1, 29, 23, 59))).toBe("Sunday 2032-02-29 23:59 UTC");
  });
});

describe("spans", () => {
  const day = 86_400_000;
  it("are days, hours or minutes by their size", () => {
    expect(formatSpan(6 * day)).toBe("6\u00a0days");
    expect(formatSpan(day)).toBe("1\u00a0day");
    expect(formatSpan(4.5 * day)).toBe("4.5\u00a0days");
    expect(formatSpan(3 * 3_600_000)).toBe("3\u202fh");
    expect(formatSpan(20 * 60_000)).toBe("20\u202fmin");
  });
  it("have a true minus", () => expect(formatSpan(-2 * day)).toBe("−2\u00a0days"));
});
