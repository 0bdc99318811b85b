/** Which loss period is in force, and the cut into pieces of constant rate. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { periodInForce, ratePieces } from "../../../app/storage/loss-rate.ts";
import type { LossPeriod } from "../../../app/entity/loss-period.ts";

const period = (id: string, fromAt: number | null, untilAt: number | null, kPerDay: number): LossPeriod => ({
  id,
  tankId: "t",
  planCaseId: null,
  fromAt,
  untilAt,
  basis: { kind: "stated", kPerDay, cKgPerDay: 0 },
  reason: id,
  note: "",
});
const base = period("base", null, null, 0.001);
const outage = period("outage", 100, 200, 0.01);
const adopted = period("adopted", 150, null, 0.002);

describe("the period in force", () => {
  it("is the one that began last", () => {
    expect(periodInForce([base, outage], 150)).toBe(outage);
    expect(periodInForce([outage, base], 99)).toBe(base);
    expect(periodInForce([outage, adopted, base], 160)).toBe(adopted);
  });
  it("ends by itself, until exclusive", () => expect(periodInForce([base, outage], 200)).toBe(base));
  it("is none outside of all", () => expect(periodInForce([outage], 99)).toBeNull());
  it("is the plan case's own where two began together", () => {
    const own = { ...period("aa", null, null, 0.5), planCaseId: "case" };
    expect(periodInForce([own, base], 5)).toBe(own);
    expect(periodInForce([base, own], 5)).toBe(own);
  });
});

describe("pieces", () => {
  it("are cut at the edges and only where the rate changes hands", () =>
    expect(ratePieces([base, outage], 0, 300).map((p) => [p.fromAt, p.untilAt, p.kPerDay, p.period?.id])).toEqual([
      [0, 100, 0.001, "base"],
      [100, 200, 0.01, "outage"],
      [200, 300, 0.001, "base"],
    ]));
  it("fall back where no period holds", () =>
    expect(ratePieces([outage], 150, 300, { kPerDay: 7, cKgPerDay: 1 }).map((p) => [p.fromAt, p.kPerDay])).toEqual([
      [150, 0.01],
      [200, 7],
    ]));
  it("cover the span and say at every instant what the period in force says, in any order of rows", () => {
    const instant = fc.option(fc.integer({ min: 0, max: 40 }));
    const rows = fc.array(fc.tuple(instant, instant, fc.integer({ min: 1, max: 99 })), { maxLength: 7 });
    fc.assert(
      fc.property(rows, fc.integer({ min: 0, max: 39 }), (list, at) => {
        const periods = list.map(([from, until, k], i) => period(`p${i}`, from, until, k / 100));
        const pieces = ratePieces(periods, 0, 40);
        expect(pieces[0]?.fromAt).toBe(0);
        expect(pieces.at(-1)?.untilAt).toBe(40);
        const here = pieces.filter((p) => p.fromAt <= at && at < p.untilAt);
        expect(here).toHaveLength(1);
        expect(here[0]?.period).toBe(periodInForce(periods.toReversed(), at));
      }),
    );
  });
});
