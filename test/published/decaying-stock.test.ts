/**
 * The exponentially decaying stock. Source: P. M. Ghare, G. F. Schrader, "A model for an exponentially decaying
 * inventory", Journal of Industrial Engineering 14 (1963) 238: I(t) = (I0 + D/θ)·e^(−θt) − D/θ.
 * Status: citation published, the numbers are that formula worked out apart from this program.
 */
import { describe, expect, it } from "vitest";
import { levelAt } from "../../app/forecast/curve.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import { daysToEmpty, levelAfter } from "../../app/storage/level.ts";
import { check } from "../../app/supply/check.ts";
import { day, flight, lossPeriod, smallPlan, tank } from "../app/forecast/small-plan.ts";

describe("Ghare and Schrader, θ = 0.00127 a day, I0 = 1000, D = 5 a day", () => {
  const plan = smallPlan({ opening: { a: 1000 }, lossPeriods: [lossPeriod("p", "a", 0.00127, 5)] });

  it("I(30) = 815.438227", () => {
    expect(levelAfter(1000, 0.00127, 5, 30)).toBeCloseTo(815.438227, 6);
    expect(levelAt(forecast(plan).levels[0]?.segments ?? [], day(30))).toBeCloseTo(815.438227, 6);
  });

  it("is empty at 178.219246 days, and the forecast says so", () => {
    expect(daysToEmpty(1000, 0.00127, 5)).toBeCloseTo(178.219246, 6);
    const finding = check(plan).findings.find((row) => row.kind === "tank empty");
    expect((finding?.fromAt ?? 0) / 86_400_000).toBeCloseTo(day(178.219246) / 86_400_000, 6);
  });
});

describe("tanker stacking: 100 t every 14 days at the same rate, no draw", () => {
  it("stands at 482.684970 t after the fifth", () => {
    const result = forecast(
      smallPlan({
        tanks: [tank("a", { maximumFillKg: 1_000_000 })],
        lossPeriods: [lossPeriod("p", "a", 0.00127, 0)],
        flights: [0, 1, 2, 3, 4].map((n) => flight(`f${n}`, 14 * n, 14 * n + 1, 100_000)),
      }),
    );
    expect(levelAt(result.levels[0]?.segments ?? [], day(57))).toBeCloseTo(482_684.97, 2);
  });

  it("needs room: with 400 t of it, the fifth does not fit whole", () => {
    const report = check(
      smallPlan({
        tanks: [tank("a", { maximumFillKg: 400_000 })],
        lossPeriods: [lossPeriod("p", "a", 0.00127, 0)],
        flights: [0, 1, 2, 3, 4].map((n) => flight(`f${n}`, 14 * n, 14 * n + 1, 100_000)),
      }),
    );
    const overflows = report.findings.flatMap((row) => (row.kind === "overflow" ? [row] : []));
    expect(overflows.map((row) => row.flightId)).toEqual(["f4"]);
    expect(overflows[0]?.notTakenKg).toBeCloseTo(82_684.97, 2);
  });
});
