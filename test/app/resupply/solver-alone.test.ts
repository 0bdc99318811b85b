/** Least flights and infeasibility against HiGHS, an independent solver, on whole flights: small plans in which the linear model is exact. */
import { expect, it } from "vitest";
import { usualAsked } from "../../../app/resupply/asked.ts";
import { makeProblem } from "../../../app/resupply/make-problem.ts";
import { prepare, search } from "../../../app/resupply/search.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { familyAsked, familyPlan } from "../../bench/resupply-family.ts";
import { loadSolverAlone } from "../../bench/whole-flights.ts";
import { atLeast, count, seeds } from "./seeds.ts";

it("agrees on plans of 13 to 23 windows, those that nothing holds among them", async (context) => {
  const solve = await loadLinearSolver();
  const solveAlone = await loadSolverAlone();
  const differing: string[] = [];
  let held = 0;
  let unheld = 0;
  for (const seed of seeds(10, 120)) {
    const slots = 13 + (seed % 11);
    const full = familyPlan(100 + seed, slots, Math.round((slots * (4 + (seed % 5))) / 13));
    // One flight a fortnight, or one in four weeks: then many cannot be held.
    const asked = familyAsked(full);
    const at = asked.arrivals.kind === "list" ? asked.arrivals.at : [];
    const arrivals = { kind: "list" as const, at: seed % 3 === 0 ? at.filter((_, n) => n % 2 === 0) : at };
    const { problem } = makeProblem(full, { ...usualAsked, isBeforeLoadings: false, arrivals });
    const found = search(prepare(problem), {
      solve,
      endValue: 0,
      mostRounds: 10,
      mostLabels: 1_000_000,
      shouldStop: () => false,
    });
    const alone = solveAlone(problem, 20);
    if (alone.status === "open") continue;
    const wanted = alone.status === "optimal" ? Math.round(alone.objective) : Infinity;
    if (wanted === Infinity) unheld += 1;
    else held += 1;
    if (!found.isProved || found.upper !== wanted)
      differing.push(`${seed}: ${found.lower}–${found.upper}, the solver has ${wanted}`);
  }
  count(context, "plans that the solver alone proved", held + unheld);
  expect(differing).toEqual([]);
  expect(held).toBeGreaterThanOrEqual(atLeast(3));
  expect(unheld).toBeGreaterThanOrEqual(atLeast(1));
});
