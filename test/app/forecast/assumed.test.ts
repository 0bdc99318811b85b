/** Stretches that rest on events without a record: where they begin, and what ends them. */
import { expect, test } from "vitest";
import { assumedStretches, overdueWords } from "../../../app/forecast/assumed.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { day, smallPlan } from "../../renderer/timeline/small-plan.ts";

/** Wagon 1 departed, was to arrive on day −6, and nobody says so; the as-of instant is day 0. */
const late = (more: Partial<PlanSnapshot> = {}): PlanSnapshot => {
  const plan = smallPlan();
  const [first, ...others] = plan.flights;
  const flights = [{ ...first!, status: "departed" as const, departAt: day(-16), arriveAt: day(-6) }, ...others];
  return { ...plan, flights, ...more };
};
const overdue = new Set(["flight-1"]);
const record = (at: number, tankId: string) => ({
  at,
  tankId,
  what: "level" as const,
  kg: 1,
  order: "measured" as const,
});

test("a level is assumed from the arrival that has no record up to the as-of instant", () => {
  expect(assumedStretches(late(), overdue, "shelf", "hydrogen")).toEqual([{ fromAt: day(-6), untilAt: day(0) }]);
  expect(overdueWords(late(), overdue)).toMatch(/^assumed .*, without a record, and overdue: Wagon 1$/);
});

test("a level measured since ends it, for its own propellant alone", () => {
  const plan = late();
  const tank = plan.tanks.find(({ propellantId, ownerKind }) => propellantId === "hydrogen" && ownerKind === "depot")!;
  const measured = late({ replay: { fromAt: day(-6), records: [record(day(-2), tank.id)] } });
  expect(assumedStretches(measured, overdue, "shelf", "hydrogen")).toEqual([{ fromAt: day(-6), untilAt: day(-2) }]);
  expect(assumedStretches(measured, overdue, "shelf", "oxygen")).toEqual([{ fromAt: day(-6), untilAt: day(0) }]);
});

test("nothing is assumed where nothing is overdue, or at a depot that it does not touch", () => {
  expect(assumedStretches(late(), new Set(), "shelf", "hydrogen")).toEqual([]);
  expect(assumedStretches(late(), overdue, "elsewhere", "hydrogen")).toEqual([]);
  expect(overdueWords(late(), new Set())).toBeNull();
});
