/** Dates are read strictly and written so that they can be read back. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatDate, formatInstant, formatMinute, parseInstant, readInstant } from "../../../app/format/time.ts";

describe("reading an instant", () => {
  it("takes a date as midnight UTC", () => expect(readInstant("2031-02-20")).toBe(Date.UTC(2031, 1, 20)));
  it("takes minutes, seconds and thousandths", () => {
    expect(readInstant("2031-02-20T14:05Z")).toBe(Date.UTC(2031, 1, 20, 14, 5));
    expect(readInstant("2031-02-20 14:05")).toBe(Date.UTC(2031, 1, 20, 14, 5));
    expect(readInstant("2031-02-20T14:05:06.789Z")).toBe(Date.UTC(2031, 1, 20, 14, 5, 6, 789));
  });
  it("takes an offset", () => expect(readInstant("2031-02-20T14:05+02:00")).toBe(Date.UTC(2031, 1, 20, 12, 5)));
  it("knows leap years", () => {
    expect(readInstant("2032-02-29")).toBe(Date.UTC(2032, 1, 29));
    expect(readInstant("2031-02-29")).toBeNull();
  });
  it("takes figures without their noughts, year first", () =>
    expect(readInstant("2031-2-3")).toBe(Date.UTC(2031, 1, 3)));
  it.each(["2031-02-31", "2031-13-01", "2031-02-20T25:00Z", "2031-02-20T14:60Z", "20.02.2031", "2031-2-30", "", "now"])(
    "refuses %s",
    (text) => expect(readInstant(text)).toBeNull(),
  );
  it("says what is wrong and where", () =>
    expect(() => parseInstant("2031-02-31", "departAt")).toThrowError(
      expect.objectContaining({ code: "invalid input", field: "departAt" }),
    ));
});

describe("writing an instant", () => {
  it("writes a date and a minute", () => {
    expect(formatDate(Date.UTC(2031, 1, 20, 23, 59))).toBe("2031-02-20");
    expect(formatMinute(Date.UTC(2031, 1, 20, 3, 4))).toBe("2031-02-20 03:04 UTC");
  });
  it("is read back to the millisecond", () =>
    fc.assert(
      fc.property(fc.integer({ min: 0, max: Date.UTC(2200, 0, 1) }), (at) => {
        expect(readInstant(formatInstant(at))).toBe(at);
      }),
    ));
});
