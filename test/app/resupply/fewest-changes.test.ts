/** Fewest changes as the last goal in order, against every choice run by the exact engine. */
import { describe, expect, it } from "vitest";
import { MASS, TANK_WIDTH } from "../../../app/forecast/layout.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import type { Run } from "../../../app/forecast/run-state.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import { type ResupplyAsked, usualAsked } from "../../../app/resupply/asked.ts";
import { type Candidates, type Choice, makeCandidates } from "../../../app/resupply/candidates.ts";
import { makeProblem } from "../../../app/resupply/make-problem.ts";
import { planResupply } from "../../../app/resupply/plan-resupply.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { isHeld, keepsLimits } from "./brute-force.ts";
import { demoPlan, smallProblem } from "./random-problem.ts";
import { atLeast, count, seeds } from "./seeds.ts";

const DAY = 86_400_000;
const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };

/** A plan whose flights are all planned, and two instants at which others may arrive. */
const question = (seed: number): { plan: ReturnType<typeof smallProblem>["plan"]; asked: ResupplyAsked } => {
  const { plan: base } = smallProblem(seed);
  const plan = {
    ...base,
    flights: base.flights.map((row) =>
      row.status === "firm" && row.origin.kind === "source" ? { ...row, status: "planned" as const } : row,
    ),
    craftClasses: base.craftClasses.map((row) =>
      row.role === "tanker" ? { ...row, costPerFlight: row.id === "A" ? 3 : 2, costUnit: "M" } : row,
    ),
  };
  const asked: ResupplyAsked = {
    ...usualAsked,
    arrivals: { kind: "list", at: [3, 9].map((day) => plan.asOfAt + (day + (seed % 3)) * DAY) },
    isBeforeLoadings: false,
    mayReplace: true,
    least: seed % 2 === 0 ? "cost" : "flights",
  };
  return { plan, asked };
};

/** What a run loads for tanks that sorties draw from, less what these hold in the end, kg. */
const lossOf = (candidates: Candidates, run: Run): number => {
  const { plan } = run;
  const pools = new Set(plan.needPool.filter((_, need) => (plan.needLoadKg[need] ?? 0) > 0));
  const loaded = plan.lineFlight.reduce((sum, flight, line) => {
    const isFlown = candidates.isCandidate[flight] === 1 && run.input.flightIsOff[flight] === 0;
    return isFlown && pools.has(plan.linePool[line] ?? -1) ? sum + (plan.lineLoadedKg[line] ?? 0) : sum;
  }, 0);
  return plan.tankPool.reduce(
    (sum, pool, n) => (pools.has(pool) ? sum - (run.tanks[TANK_WIDTH * n + MASS] ?? 0) : sum),
    loaded,
  );
};

/** Over every choice: the least cost, and of what costs that the fewest changes; by loss, all that hold. */
const best = (
  candidates: Candidates,
  seen?: (cost: number, changes: number, run: Run) => void,
): { cost: number; changes: number } => {
  const { problem, free, flightOf, isCandidate, lanes } = candidates;
  const engine = createEngine(candidates.compiled);
  const { flightIsOff } = engine.input;
  isCandidate.forEach((is, flight) => {
    flightIsOff[flight] = is;
  });
  const choice: Choice = new Int32Array(free.length);
  let found = { cost: Infinity, changes: Infinity };
  const visit = (cell: number, cost: number, changes: number): void => {
    if (cost > found.cost) return;
    if (cell === free.length) {
      const isBetter = cost < found.cost || changes < found.changes;
      if (!isBetter && seen === undefined) return;
      if (!keepsLimits(candidates, choice) || !isHeld(problem, engine.go())) return;
      if (isBetter) found = { cost, changes };
      seen?.(cost, changes, engine.run);
      return;
    }
    const lane = problem.lanes[cell % lanes];
    const most = free[cell] ?? 0;
    for (let count = 0; count <= most; count += 1) {
      const flight = count === 0 ? -1 : (flightOf[cell * problem.mostAtOnce + count - 1] ?? -1);
      if (flight >= 0) flightIsOff[flight] = 0;
      choice[cell] = count;
      const changed = lane?.planned == null ? count : most - count;
      visit(cell + 1, cost + count * (lane?.cost ?? 0), changes + changed);
    }
    for (let count = 0; count < most; count += 1) flightIsOff[flightOf[cell * problem.mostAtOnce + count] ?? 0] = 1;
    choice[cell] = 0;
  };
  visit(0, 0, 0);
  return found;
};

const changesOf = ({ changes }: ResupplyAnswer): number => changes.filter(({ kind }) => kind !== "kept").length;

describe("of plans as good as each other", () => {
  it("the one that changes least of what is planned is proposed, by flights and by cost", (context) => {
    const faults: string[] = [];
    let compared = 0;
    let kept = 0;
    const drawn = seeds(14, 200);
    for (const seed of drawn) {
      const { plan, asked } = question(110_020 + seed);
      let answer: ResupplyAnswer;
      let candidates: Candidates;
      try {
        candidates = makeCandidates(makeProblem(plan, asked).problem);
        answer = planResupply(plan, asked, solve, quiet);
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      if (answer.standing !== "plan" || !answer.isProved) continue;
      const least = best(candidates);
      compared += 1;
      if (answer.changes.some(({ kind }) => kind === "kept")) kept += 1;
      if (answer.bracket.upper !== least.cost)
        faults.push(`${seed}: cost ${answer.bracket.upper}, least ${least.cost}`);
      // Flights of no lane (they cannot be replaced) are not among the changes.
      if (changesOf(answer) !== least.changes)
        faults.push(`${seed}: ${changesOf(answer)} changes, least ${least.changes}`);
    }
    count(context, "fewest changes against every choice", compared);
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThanOrEqual(atLeast(drawn.length / 4));
    expect(kept).toBeGreaterThanOrEqual(atLeast(1));
  });

  it("the one that changes least is proposed where losses are least, within the tolerance of their proof", (context) => {
    const faults: string[] = [];
    let compared = 0;
    let kept = 0;
    for (const seed of seeds(16, 200)) {
      const { plan, asked: other } = question(111_020 + seed);
      const asked = { ...other, least: "loss" } as const;
      let answer: ResupplyAnswer;
      let candidates: Candidates;
      try {
        candidates = makeCandidates(makeProblem(plan, asked).problem);
        answer = planResupply(plan, asked, solve, quiet);
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      if (answer.standing !== "plan" || !answer.isProved || answer.loss?.isProved !== true) continue;
      const rows: { changes: number; lostKg: number }[] = [];
      best(candidates, (flights, changes, run) => {
        if (flights === answer.bracket.upper) rows.push({ changes, lostKg: lossOf(candidates, run) });
      });
      const leastKg = Math.min(...rows.map(({ lostKg }) => lostKg));
      const few = Math.min(...rows.filter(({ lostKg }) => lostKg <= leastKg + 1e-6).map(({ changes }) => changes));
      compared += 1;
      if (answer.changes.some(({ kind }) => kind === "kept")) kept += 1;
      if (changesOf(answer) > few) faults.push(`${seed}: ${changesOf(answer)} changes, ${few} lose the least`);
    }
    count(context, "fewest changes of least loss against every choice", compared);
    expect(faults).toEqual([]);
    expect(compared).toBeGreaterThanOrEqual(atLeast(3));
    expect(kept).toBeGreaterThanOrEqual(atLeast(1));
  });

  it("least loss keeps a planned flight where as many flights lose no more with it, and says what is lost then", () => {
    const tarn = demoPlan("tarn");
    const answer = planResupply(tarn, { ...usualAsked, mayReplace: true, least: "loss" }, solve, quiet);
    expect(answer.standing).toBe("plan");
    const { upper } = answer.bracket;
    const flying = answer.changes.filter(({ kind }) => kind !== "left out").length;
    expect(flying).toBe(upper);
    const few = planResupply(tarn, { ...usualAsked, mayReplace: true }, solve, quiet);
    // Losses come first: it may change more than the plan that only counts flights, and never loses more.
    expect(answer.proposed?.lostKg ?? Infinity).toBeLessThanOrEqual((few.proposed?.lostKg ?? 0) + 1);
    expect(answer.loss?.isProved).toBe(true);
  });
});
