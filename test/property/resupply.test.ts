/** What every exact plan must obey: each inequality of the relaxation, and the bound on what is still to come. */
import { describe, expect, it } from "vitest";
import { completionBound, relaxedProgramme, stillToCome } from "../../app/resupply/completion-bound.ts";
import { limitRows } from "../../app/resupply/limit-rows.ts";
import type { Problem } from "../../app/resupply/problem.ts";
import { worthOf } from "../../app/resupply/relaxation.ts";
import { type Prepared, prepare } from "../../app/resupply/search.ts";
import { loadLinearSolver } from "../../main/service/linear-solver.ts";
import { problemOf, shakenProblem, smallProblem, transferProblem } from "../app/resupply/random-problem.ts";
import { count, seeds } from "../app/resupply/seeds.ts";
import { chance } from "../bench/chance.ts";

const solve = await loadLinearSolver();

/** A random plan window by window; it ends where a sortie fails. */
interface Course {
  readonly labels: readonly Float64Array[];
  /** Lane that flies in each window; −1: none. */
  readonly lanes: readonly number[];
  readonly isWhole: boolean;
}

const randomCourse = ({ candidates, steps }: Prepared, next: () => number, density: number): Course => {
  const { windows, lanes, free, flightOf, problem } = candidates;
  const labels: Float64Array[] = [steps.start ?? new Float64Array(0)];
  const flown: number[] = [];
  for (let window = 0; window < windows; window += 1) {
    const lane = next() < density ? Math.floor(next() * lanes) : -1;
    const flies = lane >= 0 && (free[window * lanes + lane] ?? 0) > 0;
    const flights = flies ? [flightOf[(window * lanes + lane) * problem.mostAtOnce] ?? -1] : [];
    const label = new Float64Array(steps.form.mostSize);
    if (!steps.step(window, labels[window] ?? label, 0, flights, label, 0, []))
      return { labels, lanes: flown, isWhole: false };
    labels.push(label);
    flown.push(flies ? lane : -1);
  }
  return { labels, lanes: flown, isWhole: true };
};

/** Grams: what the engine itself forgives, summed over a window. */
const TOLERANCE_KG = 1e-3;

/** Inequalities looked at, and what is violated. */
const violations = (problem: Problem, seed: number): { looked: number; faults: string[] } => {
  const prepared = prepare(problem);
  const { relaxation } = prepared;
  const faults: string[] = [];
  let looked = 0;
  if (relaxation === null || prepared.noPlan !== null) return { looked, faults };
  const next = chance(seed + 7);
  const pools = relaxation.pools.length;
  for (let turn = 0; turn < 40; turn += 1) {
    const { labels, lanes, isWhole } = randomCourse(prepared, next, [0.2, 0.5, 0.8, 1][turn % 4] ?? 1);
    if (!isWhole) continue;
    lanes.forEach((lane, window) => {
      for (let pool = 0; pool < pools; pool += 1) {
        const cell = window * pools + pool;
        const before = worthOf(relaxation, window, pool, labels[window] ?? new Float64Array(0), 0);
        const isDirect = lane >= 0 && problem.lanes[lane]?.originDepotId === null;
        let brought = isDirect ? (relaxation.brings[(window * relaxation.lanes + lane) * pools + pool] ?? 0) : 0;
        for (const way of relaxation.ways[window] ?? [])
          if (way.cell === cell) brought += way.worth * (labels[window]?.[way.part] ?? 0);
        const level = Math.min(before + brought, relaxation.top[cell] ?? 0);
        const after = worthOf(relaxation, window + 1, pool, labels[window + 1] ?? new Float64Array(0), 0);
        looked += 2;
        if (level < (relaxation.need[cell] ?? 0) - TOLERANCE_KG) faults.push(`${seed}, window ${window}: need`);
        if (after > (relaxation.q[cell] ?? 0) * level - (relaxation.r[cell] ?? 0) + TOLERANCE_KG)
          faults.push(
            `${seed}, window ${window}: map, by ${after - (relaxation.q[cell] ?? 0) * level + (relaxation.r[cell] ?? 0)} kg`,
          );
      }
    });
  }
  return { looked, faults };
};

const overSeeds = (of: readonly number[], problem: (seed: number) => Problem) => {
  let looked = 0;
  const faults: string[] = [];
  for (const seed of of) {
    const found = violations(problem(seed), seed);
    looked += found.looked;
    faults.push(...found.faults);
  }
  return { looked, faults };
};

describe("the relaxation along exact plans", () => {
  it("has no inequality that a plan which holds violates", (context) => {
    const small = overSeeds(seeds(120, 2000), (seed) => problemOf({ ...smallProblem(seed, 9), hulls: [] }));
    const tarn = overSeeds(seeds(16, 200), (seed) => problemOf({ ...shakenProblem(seed, "tarn", 10), hulls: [] }));
    const beck = overSeeds(seeds(16, 200), (seed) => problemOf({ ...shakenProblem(seed, "beck", 10), hulls: [] }));
    const between = overSeeds(seeds(40, 400), (seed) => transferProblem(90_000 + seed));
    count(context, "inequalities along exact plans", small.looked + tarn.looked + beck.looked + between.looked);
    expect([...small.faults, ...tarn.faults, ...beck.faults, ...between.faults]).toEqual([]);
    expect(between.looked).toBeGreaterThan(2000);
    expect(small.looked + tarn.looked + beck.looked).toBeGreaterThan(12_000);
  });
});

describe("the exact step", () => {
  it("never has less of anything where more flies or more is there", () => {
    let compared = 0;
    for (let seed = 1; seed <= 150; seed += 1) {
      const prepared = prepare(problemOf({ ...smallProblem(50_000 + seed, 6), hulls: [] }));
      const { steps, candidates } = prepared;
      if (steps.start === null || steps.awaySortie >= 0) continue;
      const next = chance(seed);
      let less: Float64Array = steps.start;
      let more: Float64Array = steps.start.map((massKg) => massKg * (1 + 0.1 * next()) + next());
      for (let window = 0; window < candidates.windows; window += 1) {
        const flight = candidates.flightOf[window * candidates.lanes * candidates.problem.mostAtOnce] ?? -1;
        const flies = flight >= 0 && next() < 0.5 ? [flight] : [];
        const also = flight >= 0 && next() < 0.5 ? [flight] : flies;
        const [lower, upper] = [new Float64Array(steps.form.mostSize), new Float64Array(steps.form.mostSize)];
        if (!steps.step(window, less, 0, flies, lower, 0, [])) break;
        expect(steps.step(window, more, 0, also, upper, 0, []), `${seed}: more fails where less holds`).toBe(true);
        for (let part = 0; part < (steps.form.size[window + 1] ?? 0); part += 1, compared += 1)
          expect((upper[part] ?? 0) - (lower[part] ?? 0), `${seed}, window ${window}, part ${part}`).toBeGreaterThan(
            -1e-6,
          );
        [less, more] = [lower, upper];
      }
    }
    expect(compared).toBeGreaterThan(300);
  });
});

describe("the bound on what is still to come", () => {
  it("equals the solver's cost at the start: a wrong sign of the duals would give a valid but empty bound", () => {
    let positive = 0;
    for (let seed = 1; seed <= 120; seed += 1) {
      const lost = seed % 3 === 0 ? 1 : 0;
      const problem = problemOf({ ...(seed % 2 === 0 ? smallProblem(seed, 9) : shakenProblem(seed, "tarn", 9)), lost });
      const prepared = prepare(problem);
      const { candidates, relaxation, steps } = prepared;
      if (relaxation === null || prepared.noPlan !== null || steps.start === null) continue;
      const objective = {
        cost: Float64Array.from(problem.lanes, ({ cost }) => cost),
        endValue: seed % 5 === 0 ? 1 : 0,
      } as const;
      const limits = limitRows(candidates);
      const linear = solve(relaxedProgramme(candidates, relaxation, objective, limits));
      if (linear.status !== "optimal") continue;
      const bound = completionBound(candidates, relaxation, objective, limits, linear);
      // As the relaxation weighs the start, without the looks that the exact label has besides.
      let atStart = bound.base[0] ?? 0;
      relaxation.pools.forEach((_, pool) => {
        atStart -= ((bound.price[pool] ?? 0) + (bound.lostPrice[pool] ?? 0)) * (relaxation.start[pool] ?? 0);
      });
      const scale = Math.max(1, Math.abs(linear.objective));
      expect(Math.abs(atStart - linear.objective) / scale, `seed ${seed}`).toBeLessThan(1e-6);
      if (linear.objective > 0.01) positive += 1;
    }
    expect(positive).toBeGreaterThan(20);
  });

  it("equals at every instant what the solver's own plan still costs from there on, so that no price points the wrong way", (context) => {
    let compared = 0;
    let positive = 0;
    for (const seed of seeds(60, 800)) {
      const lost = seed % 3 === 0 ? 1 : 0;
      const problem = problemOf({
        ...(seed % 2 === 0 ? smallProblem(40_000 + seed, 9) : shakenProblem(40_000 + seed, "tarn", 9)),
        hulls: [],
        lost,
      });
      const prepared = prepare(problem);
      const { candidates, relaxation } = prepared;
      if (relaxation === null || prepared.noPlan !== null) continue;
      const objective = {
        cost: Float64Array.from(problem.lanes, ({ cost }) => cost),
        endValue: seed % 5 === 0 ? 1 : 0,
      } as const;
      const linear = solve(relaxedProgramme(candidates, relaxation, objective, []));
      if (linear.status !== "optimal") continue;
      const bound = completionBound(candidates, relaxation, objective, [], linear);
      const places = relaxation.pools.length;
      const { windows, lanes } = candidates;
      const cells = [...candidates.free.keys()].filter((cell) => (candidates.free[cell] ?? 0) > 0);
      const levelsFrom = cells.length;
      /** Level of a set (as planned, after the worst loss) just before an instant, as the solver has it. */
      const before = (set: number, window: number, pool: number): number => {
        if (window === 0) return relaxation.start[pool] ?? 0;
        const cell = (window - 1) * places + pool;
        const after = linear.x[levelsFrom + set * windows * places + cell] ?? 0;
        return (relaxation.q[cell] ?? 0) * after - (relaxation.r[cell] ?? 0);
      };
      const scale = Math.max(1, Math.abs(linear.objective));
      for (let window = 0; window <= windows; window += 1) {
        let still = 0;
        cells.forEach((cell, column) => {
          if (Math.floor(cell / lanes) >= window)
            still += (objective.cost[cell % lanes] ?? 0) * (linear.x[column] ?? 0);
        });
        let said = bound.base[window] ?? 0;
        for (let pool = 0; pool < places; pool += 1) {
          still -= objective.endValue * before(0, windows, pool);
          said -= (bound.price[window * places + pool] ?? 0) * before(0, window, pool);
          if (lost === 1) said -= (bound.lostPrice[window * places + pool] ?? 0) * before(1, window, pool);
        }
        compared += 1;
        if (still > 0.01) positive += 1;
        expect(Math.abs(said - still) / scale, `seed ${seed}, boundary ${window}`).toBeLessThan(1e-6);
      }
    }
    count(context, "bounds along the solver's own plan", compared);
    expect(positive).toBeGreaterThan(50);
  });

  it("is never above what a plan that holds goes on to cost", () => {
    let looked = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const problem =
        seed % 3 === 0 ? transferProblem(95_000 + seed) : problemOf({ ...shakenProblem(seed, "tarn", 9), hulls: [] });
      const prepared = prepare(problem);
      const { candidates, relaxation } = prepared;
      if (relaxation === null || prepared.noPlan !== null) continue;
      const objective = { cost: Float64Array.from(problem.lanes, ({ cost }) => cost), endValue: 0 } as const;
      const limits = limitRows(candidates);
      const linear = solve(relaxedProgramme(candidates, relaxation, objective, limits));
      if (linear.status !== "optimal") continue;
      const bound = completionBound(candidates, relaxation, objective, limits, linear);
      const next = chance(seed);
      for (let turn = 0; turn < 30; turn += 1) {
        const { labels, lanes, isWhole } = randomCourse(prepared, next, 0.4);
        if (!isWhole) continue;
        labels.forEach((label, window) => {
          const still = lanes.slice(window).reduce((sum, lane) => sum + (problem.lanes[lane]?.cost ?? 0), 0);
          looked += 1;
          expect(stillToCome(bound, relaxation, window, label, 0, -1)).toBeLessThan(still + 1e-6);
        });
      }
    }
    expect(looked).toBeGreaterThan(500);
  });
});
