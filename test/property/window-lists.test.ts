/** Windows as a list: the windows of a period, listed, give the same forecast to the bit; after the last nobody leaves. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { windowsBetween } from "../../app/entity/windows.ts";
import { arrivalInstants } from "../../app/resupply/arrival-instants.ts";
import { firstPossible } from "../../app/supply/first-possible.ts";
import { answerFor, jobOf, withInputs } from "../app/risk/kernel-plan.ts";
import { START } from "../app/forecast/small-plan.ts";
import { randomPlan } from "./random-plan.ts";
import { runs } from "../suite/runs.ts";

const plans = randomPlan({ days: 40, flights: 6, sorties: 6, constantLoss: true, betweenDepots: true });
const periods = fc.double({ min: 0.7, max: 9, noNaN: true });

const byPeriod = (plan: PlanSnapshot, periodDays: number): PlanSnapshot => ({
  ...plan,
  planCase: { ...plan.planCase, shortPolicy: "wait" },
  depots: plan.depots.map((depot) => ({ ...depot, windowPeriodDays: periodDays, windowReferenceAt: START + 12_345 })),
});

/** The same windows written out, from well before the plan to `untilAt`. */
const byList = (plan: PlanSnapshot, untilAt: number): PlanSnapshot => ({
  ...plan,
  depots: plan.depots.map((depot) => ({
    ...depot,
    windowPeriodDays: null,
    windowReferenceAt: null,
    windowList: {
      at: [...windowsBetween(depot, START - 100 * DAY_MS, untilAt)],
      source: { kind: "stated" as const, basis: "test" },
    },
  })),
});

const flown = (plan: PlanSnapshot): unknown => {
  const { levels, sorties, flights } = forecast(plan);
  return { levels, sorties, flights };
};

it("the windows of a period, listed, give the same forecast and the same first possible dates", () => {
  fc.assert(
    fc.property(plans, periods, (drawn, days) => {
      const plan = byPeriod(drawn, days);
      const listed = byList(plan, plan.horizonAt + 100 * DAY_MS);
      expect(flown(listed)).toEqual(flown(plan));
      const [a, b] = [forecast(plan), forecast(listed)];
      const [first, second] = [createEngine(a.compiled), createEngine(b.compiled)];
      for (const [sortie, row] of a.sorties.entries())
        if (row.status === "short" && !row.isOut)
          expect(firstPossible(listed, b, second, sortie)).toBe(firstPossible(plan, a, first, sortie));
    }),
    { numRuns: runs(100) },
  );
});

it("after the last window of a list nobody leaves late: a sortie that waits stands down", () => {
  fc.assert(
    fc.property(plans, periods, fc.double({ min: 0, max: 1, noNaN: true }), (drawn, days, share) => {
      const plan = byPeriod(drawn, days);
      const lastAt = plan.asOfAt + share * (plan.horizonAt - plan.asOfAt);
      const listed = byList(plan, lastAt);
      for (const { plannedAt, loadedAt } of forecast(listed).sorties)
        if (loadedAt !== null && loadedAt > plannedAt) expect(loadedAt).toBeLessThanOrEqual(lastAt);
    }),
    { numRuns: runs(100) },
  );
});

it("risk and resupply see the same windows, listed or by period", () => {
  const [drawn] = fc.sample(plans, { numRuns: 1, seed: 7 });
  const plan = withInputs(byPeriod(drawn as PlanSnapshot, 6.5), [
    { quantity: "sortie slip", of: { kind: "every" }, law: { kind: "exponential", noneShare: 0.2, meanDays: 9 } },
    { quantity: "flight slip", of: { kind: "every" }, law: { kind: "exponential", noneShare: 0.2, meanDays: 9 } },
  ]);
  const listed = byList(plan, plan.horizonAt + 1000 * DAY_MS);
  expect(answerFor(jobOf(listed), 20)).toEqual(answerFor(jobOf(plan), 20));
  const asked = { arrivals: { kind: "windows" }, isBeforeLoadings: false, blackouts: [] };
  const at = (from: PlanSnapshot): readonly number[] =>
    from.depots.flatMap((depot) => arrivalInstants(from, depot, from.craftClasses, asked as never));
  expect(at(listed)).toEqual(at(plan));
  expect(at(plan).length).toBeGreaterThan(0);
});

it("a slip beyond the last window of a list is a sortie that does not fly", () => {
  const [drawn] = fc.sample(plans, { numRuns: 1, seed: 7 });
  const plan = withInputs(byPeriod(drawn as PlanSnapshot, 6.5), [
    { quantity: "sortie slip", of: { kind: "every" }, law: { kind: "exponential", noneShare: 0, meanDays: 5 } },
  ]);
  // No window at all from the as-of instant on: nothing that slips can leave.
  const { sorties } = answerFor(jobOf(byList(plan, plan.asOfAt)), 20);
  for (const { flies } of sorties) expect(flies.value).toBe(0);
});
