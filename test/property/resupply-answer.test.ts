/** What a person takes of a resupply answer is not refuted by the forecast: random ledgers, and the family with any one flight lost. */
import { describe, expect, it } from "vitest";
import { PlanningError } from "../../app/ground/failure.ts";
import { compile } from "../../app/forecast/compile.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import type { ResupplyAnswer } from "../../app/resupply/answer.ts";
import { type ResupplyAsked, usualAsked } from "../../app/resupply/asked.ts";
import { planResupply } from "../../app/resupply/plan-resupply.ts";
import { isHeld } from "../../app/resupply/proposal.ts";
import { proposalOf, proposedPlan } from "../../app/resupply/proposed-plan.ts";
import { loadLinearSolver } from "../../main/service/linear-solver.ts";
import { smallProblem } from "../app/resupply/random-problem.ts";
import { count, isLong, seeds } from "../app/resupply/seeds.ts";
import { familyAsked, familyPlan } from "../bench/resupply-family.ts";

const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };

/** Sorties that a plan does not hold. */
const unheldIn = (plan: PlanSnapshot, goal: ResupplyAsked["goal"]): readonly string[] => {
  const run = createEngine(compile(plan)).go();
  return run.plan.sortieIds.filter((_, sortie) => !isHeld(run, sortie, goal));
};

/** null: refused in words, for no class reaches a depot. */
const answered = (plan: PlanSnapshot, asked: ResupplyAsked): ResupplyAnswer | null => {
  try {
    return planResupply(plan, asked, solve, quiet);
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return null;
    throw error;
  }
};

describe("an answer", () => {
  it("of random ledgers holds what it says that it holds, and no other sortie is short", (context) => {
    let plans = 0;
    const faults: string[] = [];
    const drawn = seeds(30, 2000);
    for (const seed of drawn) {
      const { plan } = smallProblem(70_000 + seed);
      const goal = seed % 3 === 0 ? "flies" : "supplied";
      const asked = { ...usualAsked, goal, arrivals: { kind: "every", days: 2.5 } } as const;
      const answer = answered(plan, { ...asked, mayReplace: seed % 4 === 0 });
      if (answer === null || answer.proposed === null) continue;
      plans += 1;
      const short = unheldIn(proposedPlan(plan, proposalOf(answer)), goal);
      const said = answer.unheld.map(({ sortieId }) => sortieId);
      if (short.toSorted().join() !== said.toSorted().join())
        faults.push(`${seed}: short ${short.join()}, said ${said.join()}`);
      if ((answer.standing === "plan") !== (short.length === 0)) faults.push(`${seed}: ${answer.standing}`);
    }
    count(context, "random ledgers whose plan the forecast bears out", plans);
    expect(faults).toEqual([]);
    expect(plans).toBeGreaterThan(drawn.length / 4);
  });

  it("with any one flight lost holds with each of its flights lost, one after the other", (context) => {
    // In the long run they are of full length: five years.
    for (const seed of seeds(1, 8)) {
      const plan = isLong ? familyPlan(seed) : familyPlan(seed, 52, 16);
      // Within one flight of what is proved is near enough: it is the plan that is tried here.
      let isNear = false;
      const answer = planResupply(plan, familyAsked(plan, { lost: 1 }), solve, {
        tell: (progress) => {
          const { partial } = typeof progress === "function" ? progress() : progress;
          isNear = isLong && partial?.upper != null && partial.upper - (partial.lower ?? 0) <= 1;
        },
        shouldStop: () => isNear,
      });
      expect(answer.standing).toBe("plan");
      const { flights } = proposedPlan(plan, proposalOf(answer));
      const whole = proposedPlan(plan, proposalOf(answer));
      expect(unheldIn(whole, "supplied")).toEqual([]);
      count(context, "losses of one flight in the reference family", flights.length);
      for (const lost of flights)
        expect(unheldIn({ ...whole, flights: flights.filter((row) => row !== lost) }, "supplied")).toEqual([]);
    }
  });
});
