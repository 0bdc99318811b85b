/** Labels are moved apart, no further than need be. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dodge } from "../../../app/picture/label-placement.ts";

const wanted = (...ats: number[]) => ats.map((at) => ({ at, size: 10 }));

describe("dodge", () => {
  it("leaves alone what does not touch", () => expect(dodge(wanted(10, 40, 80), 0, 100)).toEqual([10, 40, 80]));
  it("moves two that coincide apart evenly", () => expect(dodge(wanted(50, 50), 0, 100)).toEqual([45, 55]));
  it("keeps the order in which they were given for equal places", () =>
    expect(dodge(wanted(50, 50, 50), 0, 100)).toEqual([40, 50, 60]));
  it("pushes inwards at the ends", () => expect(dodge(wanted(0, 2), 0, 100)).toEqual([5, 15]));
  it("pulls a neighbour along only when it must", () =>
    expect(dodge(wanted(96, 98, 20), 0, 100)).toEqual([85, 95, 20]));

  it("never lets labels overlap or leave the range, if they fit", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -50, max: 150, noNaN: true }), { maxLength: 9 }), (ats) => {
        const middles = [...dodge(wanted(...ats), 0, 100)].sort((a, b) => a - b);
        middles.forEach((middle, index) => {
          expect(middle).toBeGreaterThanOrEqual(5 - 1e-9);
          expect(middle).toBeLessThanOrEqual(95 + 1e-9);
          if (index > 0) expect(middle - middles[index - 1]!).toBeGreaterThanOrEqual(10 - 1e-9);
        });
      }),
    );
  });
});
