/** Plan and proof against every choice of flights, run by the exact engine. */
import { type TestContext, describe, expect, it } from "vitest";
import { makeCandidates } from "../../../app/resupply/candidates.ts";
import { leastLoss } from "../../../app/resupply/least-loss.ts";
import type { Problem } from "../../../app/resupply/problem.ts";
import { prepare, search } from "../../../app/resupply/search.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { bruteForce, bruteForceLoss, holdsExactly, keepsLimits } from "./brute-force.ts";
import { atLeast, count, seeds } from "./seeds.ts";
import { type Asking, laneOf, problemOf, shakenProblem, smallProblem, transferProblem } from "./random-problem.ts";

const solve = await loadLinearSolver();

const solved = (problem: Problem) => {
  const prepared = prepare(problem);
  const found = search(prepared, {
    solve,
    endValue: 0,
    mostRounds: 6,
    mostLabels: 1e6,
    shouldStop: () => false,
  });
  return { prepared, candidates: prepared.candidates, found };
};

/** Compares one problem with brute force; what it says when they differ. */
const differs = ({ candidates, found }: ReturnType<typeof solved>): string | null => {
  const { problem } = candidates;
  const best = bruteForce(candidates);
  const said = `brute force ${best}, found ${found.lower} to ${found.upper}`;
  if (found.lower > best || found.upper < best) return said;
  if (found.isProved && found.upper !== best) return `${said}, said to be proved`;
  if (found.choice === null) return best < Infinity && problem.lost === 0 ? `${said}: no plan` : null;
  if (!holdsExactly(candidates, found.choice)) return `${said}: the plan does not hold`;
  return keepsLimits(candidates, found.choice) ? null : `${said}: the plan takes more ports or hulls than there are`;
};

const PLAIN = "plans against every choice of flights";
const ONE_LOST = "with any one flight lost";

const differences = (
  context: TestContext,
  what: string,
  of: readonly number[],
  problem: (seed: number) => Problem,
): readonly string[] => {
  count(context, what, of.length);
  return of.flatMap((seed) => {
    const said = differs(solved(problem(seed)));
    return said === null ? [] : [`${seed}: ${said}`];
  });
};

const bare = (asking: Asking): Problem => problemOf({ ...asking, hulls: [] });

describe("plan and proof against every choice of flights", () => {
  it("agrees on plans of two depots, several tanks, every handover, outages and over-full tanks", (context) => {
    expect(differences(context, PLAIN, seeds(60, 1200), (seed) => bare(smallProblem(seed)))).toEqual([]);
  });

  it("agrees on them with ports, hulls and turnaround", (context) => {
    expect(differences(context, PLAIN, seeds(50, 800), (seed) => problemOf(smallProblem(10_000 + seed)))).toEqual([]);
  });

  it("agrees on them in cost", (context) => {
    const priced = (seed: number): Problem => {
      const asking = smallProblem(20_000 + seed);
      const costs = [3 + (seed % 5), 2 + (seed % 3)];
      return bare({ ...asking, lanes: asking.lanes.map((lane, n) => ({ ...lane, cost: costs[n] ?? 1 })) });
    };
    expect(differences(context, PLAIN, seeds(30, 400), priced)).toEqual([]);
  });

  it("agrees on them with flights between the depots to choose from", (context) => {
    let choosing = 0;
    const drawn = seeds(40, 320);
    count(context, PLAIN, drawn.length);
    const faults = drawn.flatMap((seed) => {
      const one = solved(transferProblem(60_000 + seed));
      const { lanes, problem } = one.candidates;
      const isBetween = (count: number, cell: number): boolean =>
        count > 0 && problem.lanes[cell % lanes]?.originDepotId !== null;
      if (one.found.choice?.some(isBetween) === true) choosing += 1;
      const said = differs(one);
      return said === null ? [] : [`${seed}: ${said}`];
    });
    expect(faults).toEqual([]);
    // The comparison says nothing where none is ever of use.
    expect(choosing).toBeGreaterThanOrEqual(atLeast(drawn.length / 20));
  });

  it("agrees with any one flight lost", (context) => {
    expect(
      differences(context, ONE_LOST, seeds(40, 400), (seed) =>
        problemOf({ ...smallProblem(30_000 + seed, 6), hulls: [], lost: 1 }),
      ),
    ).toEqual([]);
    expect(differences(context, ONE_LOST, seeds(8, 80), (seed) => transferProblem(70_000 + seed, 1))).toEqual([]);
  });

  it("agrees with any two flights lost", (context) => {
    expect(
      differences(context, "with any two flights lost", seeds(16, 120), (seed) =>
        problemOf({ ...smallProblem(40_000 + seed, 5), hulls: [], lost: 2 }),
      ),
    ).toEqual([]);
  });

  it("agrees on the demonstrations, shaken", (context) => {
    expect(differences(context, PLAIN, seeds(8, 80), (seed) => problemOf(shakenProblem(seed, "tarn", 8)))).toEqual([]);
    expect(differences(context, PLAIN, seeds(8, 80), (seed) => problemOf(shakenProblem(seed, "beck", 8)))).toEqual([]);
  });
});

describe("least loss at the least number of flights", () => {
  it("brackets what every choice of so many flights comes to, within a thousandth or a kilogram where it is proved", (context) => {
    let compared = 0;
    const faults: string[] = [];
    const drawn = seeds(25, 300);
    for (const seed of drawn) {
      const { prepared, found } = solved(bare(smallProblem(80_000 + seed, 6)));
      if (found.choice === null || !found.isProved || found.upper === 0) continue;
      const { choice, loss } = leastLoss(prepared, { upper: found.upper, choice: found.choice }, solve, () => false);
      const { candidates } = prepared;
      if (!holdsExactly(candidates, choice)) faults.push(`${seed}: the plan does not hold`);
      // What is left of the loss when what does not hang on the choice is taken off both.
      const best = bruteForceLoss(candidates, found.upper);
      const own = bruteForceLoss({ ...candidates, free: choice.slice() }, found.upper);
      compared += 1;
      if (!loss.isProved) faults.push(`${seed}: open`);
      if (own - best > loss.upperKg - loss.lowerKg + 0.01) faults.push(`${seed}: ${own - best} kg above the least`);
      if (loss.isProved && loss.upperKg - loss.lowerKg > Math.max(1, 1e-3 * loss.upperKg) + 0.01)
        faults.push(`${seed}: said to be proved from ${loss.lowerKg} to ${loss.upperKg} kg`);
    }
    expect(faults).toEqual([]);
    count(context, "least losses against every choice", compared);
    expect(compared).toBeGreaterThanOrEqual(atLeast(drawn.length / 20));
  });
});

describe("limits on the whole", () => {
  it("finds none where the budget is below the least cost, and the same plan where it is not", () => {
    const looked = Array.from({ length: 60 }, (_, n) => 20_000 + n);
    const isUseful = (seed: number): boolean => {
      const { upper } = solved(bare(smallProblem(seed))).found;
      return upper > 1 && upper < Infinity;
    };
    const open = bare(smallProblem(looked.find(isUseful) ?? 0));
    const { found } = solved(open);
    expect(found.upper).toBeGreaterThan(1);
    const limited = (most: number): Problem => ({
      ...open,
      purses: [{ kind: "flights", most, takes: new Float64Array(open.lanes.length).fill(1) }],
    });
    expect(solved(limited(found.upper)).found.upper).toBe(found.upper);
    const less = solved(limited(found.upper - 1)).found;
    expect(less.choice).toBeNull();
    expect(less.isProved).toBe(true);
    expect(less.noPlan?.kind).toBe("limits");
  });

  it("refuses a class that the plan lacks, for its flights would lose nothing", () => {
    const { plan, lanes, instants } = smallProblem(1);
    const stray = laneOf({ ...(lanes[0]?.craftClass ?? plan.craftClasses[0]!), id: "stray", name: "Stray" }, "tarn");
    expect(() => makeCandidates(problemOf({ plan, lanes: [stray], instants }))).toThrow(/no class Stray/);
  });

  it("gives the same answer each time", () => {
    const problem = problemOf(shakenProblem(3, "tarn", 9));
    const [first, second] = [solved(problem).found, solved(problem).found];
    expect(second).toEqual(first);
  });
});
