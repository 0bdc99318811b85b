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
import { familyAsked, familyPlan } from "../bench/resupply-family.ts";

const LEDGERS = Number(process.env["COLDSTOCK_RESUPPLY_LEDGERS"] ?? 40);
/** Of the reference family. With more than one they are of full length: five years. */
const SEEDS = Number(process.env["COLDSTOCK_RESUPPLY_SEEDS"] ?? 1);
const solve = await loadLinearSolver();
const quiet = { report: () => undefined, shouldStop: () => false };

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
  it(`of ${LEDGERS} random ledgers holds what it says that it holds, and no other sortie is short`, () => {
    let plans = 0;
    const faults: string[] = [];
    for (let seed = 1; seed <= LEDGERS; seed += 1) {
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
    expect(faults).toEqual([]);
    expect(plans).toBeGreaterThan(LEDGERS / 4);
  });

  it("with any one flight lost holds with each of its flights lost, one after the other", () => {
    for (let seed = 1; seed <= SEEDS; seed += 1) {
      const plan = SEEDS > 1 ? familyPlan(seed) : familyPlan(seed, 52, 16);
      // Within one flight of what is proved is near enough: it is the plan that is tried here.
      let isNear = false;
      const answer = planResupply(plan, familyAsked(plan, { lost: 1 }), solve, {
        report: (progress) => {
          const { partial } = typeof progress === "function" ? progress() : progress;
          isNear = SEEDS > 1 && partial?.upper != null && partial.upper - (partial.lower ?? 0) <= 1;
        },
        shouldStop: () => isNear,
      });
      expect(answer.standing).toBe("plan");
      const { flights } = proposedPlan(plan, proposalOf(answer));
      const whole = proposedPlan(plan, proposalOf(answer));
      expect(unheldIn(whole, "supplied")).toEqual([]);
      for (const lost of flights)
        expect(unheldIn({ ...whole, flights: flights.filter((row) => row !== lost) }, "supplied")).toEqual([]);
    }
  });
});
