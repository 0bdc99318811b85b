/** Figures and dates as other programs write them. */
import { addDays } from "date-fns";
import { UTCDate } from "@date-fns/utc";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dateFormOf, instantOfSerial, readDate } from "../../../../app/format/read-date.ts";
import { decimalSignOf, readNumber } from "../../../../app/format/read-number.ts";

describe("a figure", () => {
  it.each([
    ["1234.5", "point", 1234.5],
    ["1,234.5", "point", 1234.5],
    ["1,234,567", "point", 1_234_567],
    ["1 234.5", "point", 1234.5],
    ["1\u202f234\u202f567.25", "point", 1_234_567.25],
    ["1'234.5", "point", 1234.5],
    ["\u22125", "point", -5],
    ["1.5e3", "point", 1500],
    ["1234,5", "comma", 1234.5],
    ["1.234,5", "comma", 1234.5],
    ["1.234.567", "comma", 1_234_567],
    ["1.234", "comma", 1234],
    ["1,234", "comma", 1.234],
    ["1,234", "point", 1234],
  ] as const)("%s with a decimal %s is %d", (text, sign, value) => expect(readNumber(text, sign)).toBe(value));

  it.each([
    ["1,23", "point"],
    ["12,34,567", "point"],
    ["1234.5", "comma"],
    ["1.23,4", "comma"],
    ["", "point"],
    ["12 kg", "point"],
    ["0x10", "point"],
    ["Infinity", "point"],
  ] as const)("%s with a decimal %s is none", (text, sign) => expect(readNumber(text, sign)).toBeNaN());

  it.each([
    [["1.5", "12"], true, "point"],
    [["1,5", "12"], false, "comma"],
    [["1.234,5"], false, "comma"],
    [["1,234.5"], true, "point"],
    [["1,234"], false, "unclear"],
    [["1.234"], false, "unclear"],
    [["1,234", "1,5"], false, "comma"],
    [["12", "13"], false, "either"],
    [["1.5", "1,5"], false, "unclear"],
    [["0,127"], false, "comma"],
  ] as const)("%j speak for %s", (texts, isPartedByComma, sign) =>
    expect(decimalSignOf(texts, isPartedByComma)).toBe(sign),
  );
});

describe("a date", () => {
  const at = (...parts: [number, number, number, number?, number?, number?]) =>
    Date.UTC(parts[0], parts[1] - 1, ...(parts.slice(2) as [number]));
  it.each([
    ["2031-02-20", "year first", at(2031, 2, 20)],
    ["2031-02-20T14:05Z", "year first", at(2031, 2, 20, 14, 5)],
    ["2031-02-20 14:05", "year first", at(2031, 2, 20, 14, 5)],
    ["2031-02-20T14:05+02:00", "year first", at(2031, 2, 20, 12, 5)],
    ["2031-02-20T14:05:30.5Z", "year first", at(2031, 2, 20, 14, 5, 30) + 500],
    // ISO 8601: 24:00 is the end of its day.
    ["2031-02-20T24:00", "year first", at(2031, 2, 21)],
    ["2031/02/20", "month first", at(2031, 2, 20)],
    ["20.02.2031", "day first", at(2031, 2, 20)],
    ["3/4/2031", "day first", at(2031, 4, 3)],
    ["3/4/2031", "month first", at(2031, 3, 4)],
    ["20.2.2031 14:05", "day first", at(2031, 2, 20, 14, 5)],
    ["20 Feb 2031", "year first", at(2031, 2, 20)],
    ["20-February-2031 06:00 UTC", "month first", at(2031, 2, 20, 6)],
    ["2032-02-29", "year first", at(2032, 2, 29)],
  ] as const)("%s, %s, is %d", (text, form, value) => expect(readDate(text, form)).toBe(value));

  it.each([
    "2031-02-31",
    "2031-02-29T00:00:00.000Z",
    "2031-02-31T10:00Z",
    "2100-02-29",
    "2031-13-01",
    "2031-00-10",
    "2031-02-20T24:01",
    "2031-02-20T25:00",
    "2031-02-20T10:60Z",
    "20.02.31",
    "3/4/2031",
    "soon",
    "",
  ])("%s names none", (text) => expect(readDate(text, "year first")).toBeNull());

  // ECMA-376-1, 18.17.4.1: serial 1 is 1900-01-01 in the 1900 date system; from memory: 1970-01-01 is 25569.
  it("of a spreadsheet's serial number is counted in days", () => {
    expect(instantOfSerial(25_569)).toBe(0);
    expect(instantOfSerial(47_899.25)).toBe(addDays(new UTCDate(1899, 11, 30), 47_899).getTime() + 21_600_000);
    expect(instantOfSerial(1)).toBeNull();
  });

  it("in ISO form is what the language's own clock says", () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date("1970-01-01"), max: new Date("2199-12-31"), noInvalidDate: true }),
        (date) => {
          expect(readDate(date.toISOString(), "year first")).toBe(date.getTime());
        },
      ),
    );
  });

  it.each([
    [["20.02.2031"], "day first"],
    [["01.02.2031"], "day first"],
    [["1/13/2031", "1/2/2031"], "month first"],
    [["13/1/2031"], "day first"],
    [["1/2/2031"], null],
    [["13/1/2031", "1/13/2031"], null],
    [["2031-01-01"], "year first"],
    [["47899"], "serial"],
    [["47899", "soon"], "year first"],
  ] as const)("of %j stands in the form %s", (texts, form) => expect(dateFormOf(texts)).toBe(form));
});
