/** The time axis shows the calendar at every zoom, and labels keep their distance. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { timeScale } from "../../../app/picture/time-scale.ts";
import { timeTicks } from "../../../app/picture/time-ticks.ts";

const DAY = 86_400_000;
const from = Date.UTC(2031, 0, 1);
const labels = (days: number, start = from) => {
  const { fine, coarse } = timeTicks(timeScale(start, start + days * DAY, 0, 600));
  return { fine: fine.map((tick) => tick.label), coarse: coarse.map((tick) => tick.label) };
};

describe("labels", () => {
  it("of two years are quarters under years", () => {
    expect(labels(731)).toEqual({
      fine: ["01", "04", "07", "10", "01", "04", "07", "10", "01"],
      coarse: ["2031", "2032", "2033"],
    });
  });
  it("of twenty years are years alone", () => {
    expect(labels(365.25 * 20).fine.slice(0, 3)).toEqual(["2032", "2034", "2036"]);
    expect(labels(365.25 * 20).coarse).toEqual([]);
  });
  it("of a week are days under months, the leap day among them", () => {
    const week = labels(7, Date.UTC(2032, 1, 26));
    expect(week.fine).toEqual(["02-26", "02-27", "02-28", "02-29", "03-01", "03-02", "03-03", "03-04"]);
    expect(week.coarse).toEqual(["2032-02", "2032-03"]);
  });
  it("of every second day leave out the 29th of a leap year's February, beside which March begins", () => {
    expect(labels(24, Date.UTC(2032, 1, 25)).fine.slice(0, 4)).toEqual(["02-25", "02-27", "03-01", "03-03"]);
  });
  it("of half a day are hours under the day", () => {
    expect(labels(0.5)).toEqual({
      fine: [
        "00:00",
        "01:00",
        "02:00",
        "03:00",
        "04:00",
        "05:00",
        "06:00",
        "07:00",
        "08:00",
        "09:00",
        "10:00",
        "11:00",
        "12:00",
      ],
      coarse: ["2031-01-01"],
    });
  });
});

it("fine labels have ten pixels between them at least, whatever is shown", () => {
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 7300, noNaN: true }), fc.integer({ min: 0, max: 3650 }), (days, offset) => {
      const start = from + offset * DAY;
      const { fine } = timeTicks(timeScale(start, start + days * DAY, 0, 600));
      const width = (label: string): number => label.length * 6;
      const gaps = fine
        .slice(1)
        .map((tick, index) => tick.x - fine[index]!.x - (width(tick.label) + width(fine[index]!.label)) / 2);
      expect(Math.min(Infinity, ...gaps)).toBeGreaterThanOrEqual(10);
    }),
  );
});
