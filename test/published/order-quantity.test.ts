/**
 * The order quantity of an exponentially decaying stock, in the limit of one product, one tank and a steady demand: an
 * order that lasts T days is Q = (D/θ)·(e^(θT) − 1), and of order costs K + c·Q the T that costs least a day solves
 * K + c·Q = c·T·D·e^(θT). Source: P. M. Ghare, G. F. Schrader, "A model for an exponentially decaying inventory",
 * Journal of Industrial Engineering 14 (1963) 238; citation and formula from memory, the condition is its derivative.
 * Status: the numbers are these formulas worked out apart from this program, for θ = 0.05 a day, D = 10 kg a day and c = 1
 * a kilogram: Q(6) = 69.97176, Q(10) = 129.74425, Q(15) = 223.40000 kg; with K = 35.12787 an order is best every 10 days.
 */
import { describe, expect, it } from "vitest";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { usualAsked } from "../../app/resupply/asked.ts";
import { planResupply } from "../../app/resupply/plan-resupply.ts";
import { loadLinearSolver } from "../../main/service/linear-solver.ts";
import { day, lossPeriod, smallPlan, sortie, tank } from "../app/forecast/small-plan.ts";

const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };

const FIRST = 10;
const DAYS = 60;
const orders = [
  { days: 6, loadKg: 69.97176 },
  { days: 10, loadKg: 129.74425 },
  { days: 15, loadKg: 223.4 },
] as const;
const ORDER_COST = 35.12787;

/** Ten kilograms in the middle of every day: by 1 − θ²/24 less than what flows all day. Loads by a factor. */
const planWith = (share: number): PlanSnapshot => {
  const plan = smallPlan({
    tanks: [tank("a", { maximumFillKg: 1000, heelKg: 0, reserveKg: 0 })],
    opening: { a: 0 },
    lossPeriods: [lossPeriod("p", "a", 0.05, 0)],
    sorties: Array.from({ length: DAYS }, (_, n) =>
      sortie(`s${n}`, FIRST + n + 0.5, 10, { returnAt: day(FIRST + n + 0.6) }),
    ),
    horizonDay: FIRST + DAYS,
  });
  const tanker = plan.craftClasses.find(({ role }) => role === "tanker");
  const [line] = tanker?.propellants ?? [];
  if (tanker === undefined || line === undefined) throw new Error("no tanker");
  const classes = orders.map(({ days, loadKg }) => ({
    ...tanker,
    id: `of-${days}`,
    name: `For ${days} days`,
    tripDays: 1,
    berthDays: 0.01,
    costPerFlight: Math.round(100 * (ORDER_COST + loadKg)),
    costUnit: "cents",
    hardwareKg: null,
    propellants: [{ ...line, loadKg: loadKg * share }],
  }));
  return { ...plan, craftClasses: [...plan.craftClasses.filter(({ role }) => role !== "tanker"), ...classes] };
};

const ask = (share: number, classIds: readonly string[], least: "flights" | "cost") =>
  planResupply(
    planWith(share),
    {
      ...usualAsked,
      least,
      classes: classIds.map((classId) => ({
        classId,
        hulls: null,
        turnaroundDays: 0,
        costPerFlight: null,
        everyDays: null,
      })),
      arrivals: { kind: "list", at: Array.from({ length: DAYS }, (_, n) => day(FIRST + n)) },
      isBeforeLoadings: false,
    },
    solve,
    quiet,
  );

describe("the order quantity of a decaying stock", () => {
  for (const { days } of orders)
    it(`of ${days} days lasts ${days} days, and a thousandth less does not`, () => {
      expect(ask(1, [`of-${days}`], "flights").bracket).toEqual({ lower: DAYS / days, upper: DAYS / days });
      const less = ask(0.999, [`of-${days}`], "flights");
      expect(less.isProved).toBe(true);
      expect(less.bracket.upper).toBe(DAYS / days + 1);
    });

  it("is that of 10 days where it costs least a day, in even orders, and nothing is cheaper", () => {
    const answer = ask(
      1,
      orders.map(({ days }) => `of-${days}`),
      "cost",
    );
    expect(answer.isProved).toBe(true);
    // Six orders of 35.12787 + 129.74425.
    expect(answer.bracket.upper).toBe(6 * 16487);
    expect(answer.changes.map(({ classId }) => classId)).toEqual(Array.from({ length: 6 }, () => "of-10"));
    expect(answer.changes.map(({ flight }) => (flight.arriveAt - day(FIRST)) / 86_400_000)).toEqual([
      0, 10, 20, 30, 40, 50,
    ]);
  });
});
