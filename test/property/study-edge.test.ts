/** The edge over random plans: it is where a fine scan of the forecast says, and more than one is told. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { forecast } from "../../app/forecast/forecast.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { type EdgeAnswer, findEdge } from "../../app/study/edge.ts";
import type { InputAsked } from "../../app/study/question.ts";
import { prepareStudy } from "../../app/study/study.ts";
import { carries, flight, lossPeriod, smallPlan, sortie, tank } from "../app/forecast/small-plan.ts";
import { randomPlan } from "./random-plan.ts";

const RUNS = Number(process.env["COLDSTOCK_RUNS"] ?? 24);
const plans = randomPlan({ days: 30, flights: 8, sorties: 4, constantLoss: true, betweenDepots: false });
const range = (from: number, to: number) => ({ kind: "range" as const, from, to, count: 2 });
const FINE = 250;

const inputs = fc.constantFrom<InputAsked>(
  { quantity: "loss factor", values: range(0, 4) },
  { quantity: "payload", class: "packhorse", propellant: "lox", values: range(0, 1500) },
  { quantity: "reserve", tank: "t0", values: range(60, 250) },
  { quantity: "flight delay", values: range(0, 12) },
);

test("between two neighbours of a fine scan the status turns where, and only where, an edge is", () => {
  let turned = 0;
  fc.assert(
    fc.property(plans, inputs, fc.nat(3), (plan, input, n) => {
      const at = plan.sorties[n % plan.sorties.length]!;
      const tolerance = 1e-6;
      let edge: EdgeAnswer;
      try {
        edge = findEdge(plan, { input, sortie: at.id, tolerance });
      } catch (error) {
        if (error instanceof PlanningError && error.code !== "defect") return;
        throw error;
      }
      const asked = { name: "scan", inputs: [input], design: { kind: "grid" as const } };
      const study = prepareStudy({ plan, readings: [], asked: { ...asked, ask: [{ kind: "supply", each: true }] } });
      const column = study.columns.findIndex(({ sortieId }) => sortieId === at.id);
      const isSupplied = (value: number): boolean =>
        forecast(study.planAt([value])).sorties.find(({ sortieId }) => sortieId === at.id)?.status === "supplied";
      for (const { below, above, turns } of edge.crossings) {
        expect(above - below).toBeLessThanOrEqual(tolerance);
        expect([isSupplied(below), isSupplied(above)]).toEqual(turns === "supplied" ? [false, true] : [true, false]);
        turned += 1;
      }
      expect(edge.isMonotone).toBe(edge.crossings.length < 2);
      // A scan beside that of the search: a status that differs from what the edges say is an island narrower than its step.
      const step = (edge.most - edge.least) / (edge.scanned - 1);
      let island = 0;
      let widest = 0;
      for (let place = 0; place <= FINE; place += 1) {
        const value = edge.least + ((edge.most - edge.least) * place) / FINE;
        const passed = edge.crossings.filter(({ above }) => above <= value);
        if (edge.crossings.some(({ below, above }) => below < value && value < above)) continue;
        const said = passed.length % 2 === 0 ? edge.isSuppliedAtLeast : !edge.isSuppliedAtLeast;
        island = (study.rowOf([value])[column] === "supplied") === said ? 0 : island + (edge.most - edge.least) / FINE;
        widest = Math.max(widest, island);
      }
      expect(widest).toBeLessThanOrEqual(2 * step);
    }),
    { numRuns: RUNS },
  );
  expect(turned).toBeGreaterThan(0);
});

test("an edge worked out by hand: 20 t lose 100 kg a day, and 15 t and 1 t of reserve are to be there on day 20", () => {
  const plan = smallPlan({
    tanks: [tank("a", { reserveKg: 1000, maximumFillKg: 40_000 })],
    opening: { a: 20_000 },
    sorties: [sortie("s1", 20, 15_000)],
    lossPeriods: [lossPeriod("base", "a", 0, 100)],
    horizonDay: 60,
  });
  // 4000 kg may go in 20 days: 200 kg a day, of 40 t 0.5 %/day; today 0.25.
  const edge = findEdge(plan, {
    input: { quantity: "loss rate", tank: "a", values: range(0, 2) },
    sortie: "s1",
    tolerance: 1e-9,
  });
  expect(edge.today).toBeCloseTo(0.25, 12);
  expect(edge).toMatchObject({ isSuppliedAtLeast: true, isMonotone: true, unit: "%/day" });
  expect(edge.crossings).toHaveLength(1);
  expect(edge.crossings[0]?.below).toBeCloseTo(0.5, 8);
});

test("a later flight that finds the tank full, and then comes too late: supplied only between two edges, and it is said", () => {
  // Early it finds no room (the tank holds 20 t and is full); from the first sortie on it has; after the second it is late.
  const plan = smallPlan({
    tanks: [tank("a", { maximumFillKg: 20_000 })],
    opening: { a: 20_000 },
    tanker: [carries()],
    landers: ["heron-1", "heron-2"],
    flights: [flight("f1", 4, 5, 10_000)],
    sorties: [sortie("s1", 10, 12_000), sortie("s2", 30, 15_000, { landerId: "heron-2" })],
    horizonDay: 100,
  });
  const edge = findEdge(plan, {
    input: { quantity: "flight delay", values: range(0, 40) },
    sortie: "s2",
    tolerance: 1e-5,
  });
  expect(edge.isMonotone).toBe(false);
  expect(edge.isSuppliedAtLeast).toBe(false);
  expect(edge.crossings.map(({ turns }) => turns)).toEqual(["supplied", "not supplied"]);
  // It arrives on day 5 + delay; after the loading of day 10, and at the one of day 30 still before it.
  expect(edge.crossings[0]?.above).toBeCloseTo(5, 4);
  expect(edge.crossings[1]?.below).toBeCloseTo(25, 4);
});
