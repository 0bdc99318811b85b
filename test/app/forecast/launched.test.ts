/** Kilograms loaded at the source per kilogram handed over, by hand. */
import { expect, it } from "vitest";
import { forecast } from "../../../app/forecast/forecast.ts";
import { launchedPerKg } from "../../../app/forecast/launched.ts";
import { type SmallPlan, carries, flight, smallPlan } from "./small-plan.ts";

const of = (wanted: SmallPlan): number | undefined => {
  const plan = smallPlan(wanted);
  return launchedPerKg(plan, forecast(plan)).get("lox");
};

it("has in it what is lost on the way, what cannot be drawn, chilldown and handover loss", () => {
  const tanker = [carries({ cKgPerDay: 10, residualKg: 100, chilldownKg: 40, lossFraction: 0.02 })];
  // 10 t, ten days under way: (10,000 − 100 − 100 − 40) · 0.98 = 9,564.8 kg in the tank.
  expect(of({ tanker, flights: [flight("a", 1, 11, 10_000)] })).toBeCloseTo(10_000 / 9564.8, 9);
  // A second with half of it loses as much on the way: (5,000 − 240) · 0.98 = 4,664.8 kg.
  expect(of({ tanker, flights: [flight("a", 1, 11, 10_000), flight("b", 2, 12, 5000)] })).toBeCloseTo(
    15_000 / (9564.8 + 4664.8),
    9,
  );
});

it("leaves out flights that find no room, that come from a depot or that do not arrive, and says nothing where none is left", () => {
  expect(of({ opening: { a: 99_000 }, flights: [flight("a", 1, 11, 10_000)] })).toBeUndefined();
  expect(of({ flights: [flight("a", 1, 11, 10_000, { status: "cancelled" })] })).toBeUndefined();
  expect(of({ flights: [] })).toBeUndefined();
});
