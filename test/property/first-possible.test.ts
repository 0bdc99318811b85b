/** The first possible date against a scan of every window by the engine itself, on plans with the sortie really moved. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { compile } from "../../app/forecast/compile.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { STATUS } from "../../app/forecast/run.ts";
import { firstPossible } from "../../app/supply/first-possible.ts";
import { windowsBetween } from "../../app/entity/windows.ts";
import { START } from "../app/forecast/small-plan.ts";
import { randomPlan } from "./random-plan.ts";
import { runs } from "../suite/runs.ts";

const isLoadedAt = (plan: PlanSnapshot, sortieId: string, at: number): boolean => {
  const moved = compile({
    ...plan,
    sorties: plan.sorties.map((row) =>
      row.id === sortieId ? { ...row, loadAt: at, returnAt: at + row.returnAt - row.loadAt } : row,
    ),
  });
  const run = createEngine(moved).go();
  const sortie = moved.sortieIds.indexOf(sortieId);
  return run.sortieStatus[sortie] !== STATUS.short && !Number.isNaN(run.sortieLoadedAt[sortie]);
};

/** One-day windows, metered handovers, sorties that wait: what the search must see through. */
const hard = (plan: PlanSnapshot, rateKgPerDay: number): PlanSnapshot => ({
  ...plan,
  planCase: { ...plan.planCase, shortPolicy: "wait" },
  depots: plan.depots.map((depot) => ({ ...depot, windowPeriodDays: 1, windowReferenceAt: START })),
  craftClasses: plan.craftClasses.map((row) =>
    row.role === "tanker" ? { ...row, propellants: row.propellants.map((line) => ({ ...line, rateKgPerDay })) } : row,
  ),
  flights: plan.flights.map((flight, n) => ({ ...flight, berthDays: n % 2 === 0 ? 6 : flight.berthDays })),
});

let short = 0;
let found = 0;

const PLANS = runs(300);

it(`equals a scan of every window, on ${PLANS} plans`, () => {
  fc.assert(
    fc.property(
      randomPlan({ days: 30, flights: 6, sorties: 6, constantLoss: true, betweenDepots: true }),
      fc.constantFrom(60, 150, 400),
      (drawn, rate) => {
        const plan = hard(drawn, rate);
        const seen = forecast(plan);
        const engine = createEngine(seen.compiled);
        const [depot] = plan.depots;
        seen.sorties.forEach((row, sortie) => {
          if (row.status !== "short" || row.isOut) return;
          const plannedAt = seen.compiled.sortieLoadAt[sortie]!;
          const scanned =
            windowsBetween(depot!, plannedAt + 1, plan.horizonAt).find((at) => isLoadedAt(plan, row.sortieId, at)) ??
            null;
          short += 1;
          if (scanned !== null) found += 1;
          expect(firstPossible(plan, seen, engine, sortie)).toBe(scanned);
        });
      },
    ),
    { numRuns: PLANS },
  );
  // The property is of plans with something to find.
  expect(short).toBeGreaterThan(PLANS / 2);
  expect(found).toBeGreaterThan(PLANS / 10);
});
