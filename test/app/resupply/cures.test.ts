/** What binds and what would cure it, where nothing holds: small plans whose answer is known by hand. */
import { describe, expect, it } from "vitest";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import { answerSentences, bindingSentence } from "../../../app/resupply/answer-words.ts";
import { type ResupplyAsked, usualAsked } from "../../../app/resupply/asked.ts";
import { planResupply } from "../../../app/resupply/plan-resupply.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { carries, day, depot, smallPlan, sortie, tank } from "../forecast/small-plan.ts";

const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };

/** Tankers that bring 600 kg in five days and stay two; the depot is empty and loses nothing. */
const planOf = (over: Parameters<typeof smallPlan>[0]): PlanSnapshot =>
  smallPlan({ tanker: [carries({ loadKg: 600 })], horizonDay: 60, ...over });

const withBerth = (plan: PlanSnapshot, berthDays: number): PlanSnapshot => ({
  ...plan,
  craftClasses: plan.craftClasses.map((row) => (row.role === "tanker" ? { ...row, berthDays } : row)),
});

const ask = (plan: PlanSnapshot, days: readonly number[], over: Partial<ResupplyAsked> = {}): ResupplyAnswer =>
  planResupply(
    plan,
    { ...usualAsked, arrivals: { kind: "list", at: days.map(day) }, isBeforeLoadings: false, ...over },
    solve,
    quiet,
  );

const classAsked = (over: Partial<ResupplyAsked["classes"][number]>): Partial<ResupplyAsked> => ({
  classes: [{ classId: "packhorse", hulls: null, turnaroundDays: 0, costPerFlight: null, everyDays: null, ...over }],
});

describe("what would cure a plan that nothing holds", () => {
  it("a later sortie: nothing can be there before day 5, and it loads on day 3.5", () => {
    const answer = ask(planOf({ sorties: [sortie("s1", 3.5, 500)] }), [5]);
    expect(answer.standing).toBe("partly");
    expect(answerSentences(planOf({ sorties: [sortie("s1", 3.5, 500)] }), answer)[0]).toMatch(/^No sortie can be held/);
    expect(answer.cures).toContainEqual({ kind: "later sortie", sortieId: "s1", days: 2 });
  });

  it("a larger tank: 1145 kg are asked of one that holds 1000, in steps of a hundredth of it", () => {
    const plan = planOf({ tanks: [tank("a", { maximumFillKg: 1000 })], sorties: [sortie("s1", 20, 1145)] });
    const answer = ask(plan, [5, 8, 11]);
    expect(answer.unheld[0]?.why).toBe("maximum fill");
    expect(answer.cures).toContainEqual({ kind: "tank", depotId: "tarn", propellantId: "lox", massKg: 150 });
    expect(answer.binds).toEqual([{ kind: "tank room", ownerId: "tarn" }]);
  });

  it("one more hull, or a shorter turnaround: back on day 7, it must leave on day 21 to arrive on day 26", () => {
    const plan = planOf({
      sorties: [sortie("s1", 20, 600), sortie("s2", 30, 600, { landerId: "heron-2" })],
      landers: ["heron-1", "heron-2"],
    });
    const answer = ask(plan, [5, 12, 19, 26], classAsked({ hulls: 1, turnaroundDays: 30 }));
    expect(answer.standing).toBe("partly");
    expect(answer.cures).toContainEqual({ kind: "hull", classId: "packhorse", hulls: 2 });
    expect(answer.cures).toContainEqual({ kind: "turnaround", classId: "packhorse", days: 14 });
    expect(answer.binds).toContainEqual({ kind: "hulls", ownerId: "packhorse" });
    expect(answer.binds).toContainEqual({ kind: "turnaround", ownerId: "packhorse" });
  });

  it("one more port: two stays of ten days do not fit one port before day 12", () => {
    const plan = withBerth(planOf({ depots: [depot("tarn", { ports: 1 })], sorties: [sortie("s1", 12, 1200)] }), 10);
    const answer = ask(plan, [5, 6, 7]);
    expect(answer.cures).toContainEqual({ kind: "port", depotId: "tarn", ports: 2 });
    expect(answer.binds).toContainEqual({ kind: "ports", ownerId: "tarn" });
  });

  it("the cadence of a class binds: every 30 days from day 5, the second arrives after the second sortie loads", () => {
    const plan = planOf({
      depots: [depot("tarn", { ports: 1 })],
      sorties: [sortie("s1", 20, 600), sortie("s2", 30, 600, { landerId: "heron-2" })],
      landers: ["heron-1", "heron-2"],
    });
    const answer = ask(plan, [5, 12, 19, 26], classAsked({ everyDays: 30 }));
    expect(answer.standing).toBe("partly");
    expect(answer.binds).toContainEqual({ kind: "cadence", ownerId: "packhorse" });
    expect(bindingSentence(plan, answer)).toContain("how often Packhorse may arrive");
    expect(answerSentences(plan, answer).join(" ")).toContain("What binds:");
  });
});
