/** Margins, cadences and a probability that is asked for, each against every choice or every loss, run by the exact engine. */
import { describe, expect, it } from "vitest";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { compile } from "../../../app/forecast/compile.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import { needMarginKg } from "../../../app/forecast/read-run.ts";
import type { Run } from "../../../app/forecast/run-state.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import { answerSentences } from "../../../app/resupply/answer-words.ts";
import { type ResupplyAsked, usualAsked } from "../../../app/resupply/asked.ts";
import { makeCandidates } from "../../../app/resupply/candidates.ts";
import { likelyPlan, surelyAtLeast } from "../../../app/resupply/likely-plan.ts";
import { makeProblem } from "../../../app/resupply/make-problem.ts";
import { withMargins } from "../../../app/resupply/margins.ts";
import { planResupply } from "../../../app/resupply/plan-resupply.ts";
import type { Problem } from "../../../app/resupply/problem.ts";
import { proposalOf, proposedPlan } from "../../../app/resupply/proposed-plan.ts";
import { prepare, search } from "../../../app/resupply/search.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { bruteForce, isHeld } from "./brute-force.ts";
import { demoPlan, problemOf, smallProblem, transferProblem } from "./random-problem.ts";
import { atLeast, count, seeds } from "./seeds.ts";

const DAY = 86_400_000;
const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };
const tarn = demoPlan("tarn");
const ask = (plan: PlanSnapshot, over: Partial<ResupplyAsked>): ResupplyAnswer =>
  planResupply(plan, { ...usualAsked, ...over }, solve, quiet);

const solved = (problem: Problem) => {
  const prepared = prepare(problem);
  return search(prepared, { solve, endValue: 0, mostRounds: 6, mostLabels: 1e6, shouldStop: () => false });
};

describe("a margin above the reserve", () => {
  /** Every sortie loads and leaves the reserve and so much more. */
  const keeps =
    (marginKg: number) =>
    (problem: Problem, run: Run): boolean =>
      isHeld(problem, run) &&
      run.plan.sortieIds.every((_, sortie) => {
        if (run.plan.sortieIsOut[sortie] === 1) return true;
        for (
          let need = run.plan.sortieLineStart[sortie] ?? 0;
          need < (run.plan.sortieLineStart[sortie + 1] ?? 0);
          need += 1
        )
          if (needMarginKg(run, need) < marginKg - 1e-6) return false;
        return true;
      });

  it("is kept by as few flights as every choice of flights needs for it in the plan without the margin", (context) => {
    const faults: string[] = [];
    let dearer = 0;
    for (const seed of seeds(40, 400)) {
      const asking = { ...smallProblem(90_000 + seed, 6), hulls: [], goal: "supplied" as const };
      const marginKg = 20 + (seed % 5) * 25;
      const best = bruteForce(makeCandidates(problemOf(asking)), keeps(marginKg));
      let plan = asking.plan;
      try {
        const margins = [{ propellantId: "lox", massKg: marginKg }];
        plan = withMargins(asking.plan, { ...usualAsked, margins });
      } catch (error) {
        // More than a depot holds is refused: then nothing keeps it there either, where a sortie draws.
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      const found = solved(problemOf({ ...asking, plan }));
      if (found.lower > best || found.upper < best || (found.isProved && found.upper !== best))
        faults.push(`${seed}: every choice ${best}, found ${found.lower} to ${found.upper}`);
      if (best < Infinity && best > solved(problemOf(asking)).upper) dearer += 1;
    }
    count(context, "margins against every choice", seeds(40, 400).length);
    expect(faults).toEqual([]);
    expect(dearer).toBeGreaterThanOrEqual(atLeast(1));
  });

  it("is said with its kilograms, and refused where the depot cannot hold it or the reserve may be used", () => {
    const oxygen = (massKg: number, over: Partial<ResupplyAsked> = {}): ResupplyAnswer =>
      ask(tarn, { margins: [{ propellantId: "oxygen", massKg }], ...over });
    const answer = oxygen(200);
    expect(answer.standing).toBe("plan");
    expect(answerSentences(tarn, answer).join(" ")).toMatch(/At least 200\skg of oxygen stays above the reserve/);
    const run = createEngine(compile(proposedPlan(tarn, proposalOf(answer)))).go();
    run.plan.needPropellantIds.forEach((propellantId, need) => {
      if (propellantId === "oxygen") expect(needMarginKg(run, need)).toBeGreaterThanOrEqual(200 - 1e-6);
    });
    expect(() => oxygen(1e8)).toThrow(
      /100[\s ]000(\.0)?\st of oxygen above the reserve is more than .* holds: .* when full/,
    );
    expect(() => oxygen(10, { goal: "flies" })).toThrow(/ask for every sortie to be supplied/);
    expect(() => ask(tarn, { margins: [{ propellantId: "xenon", massKg: 1 }] })).toThrow(
      /No depot has a tank for xenon/,
    );
  });

  it("may be all that lies between reserve and maximum fill: both count from empty, the heel is in the reserve", () => {
    const tank = tarn.tanks.find(({ ownerKind, propellantId }) => ownerKind === "depot" && propellantId === "oxygen")!;
    expect(tank.heelKg).toBeGreaterThan(0);
    const most = tank.maximumFillKg - tank.reserveKg;
    const asked = (massKg: number): ResupplyAsked => ({ ...usualAsked, margins: [{ propellantId: "oxygen", massKg }] });
    const kept = withMargins(tarn, asked(most)).tanks.find(({ id }) => id === tank.id);
    expect(kept?.reserveKg).toBe(tank.maximumFillKg);
    expect(() => withMargins(tarn, asked(most + 1))).toThrow(/more than Tarn holds/);
    const low = { ...tarn, tanks: tarn.tanks.map((row) => (row.id === tank.id ? { ...row, reserveKg: 0 } : row)) };
    expect(withMargins(low, asked(100)).tanks.find(({ id }) => id === tank.id)?.reserveKg).toBe(tank.heelKg + 100);
  });
});

describe("the cadence of a class", () => {
  it("gives the instants at which its flights may arrive, and the fewest flights of every choice of these", () => {
    let held = 0;
    for (const seed of seeds(20, 200)) {
      const { plan } = smallProblem(91_000 + seed);
      const asked: ResupplyAsked = {
        ...usualAsked,
        classes: [{ classId: "A", hulls: null, turnaroundDays: 0, costPerFlight: null, everyDays: 2.5 }],
      };
      let problem: Problem;
      try {
        ({ problem } = makeProblem(plan, asked));
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      const first = plan.asOfAt + 0.25 * DAY;
      for (const at of problem.instants) expect(((at - first) / (2.5 * DAY)) % 1).toBeCloseTo(0, 6);
      const one = { ...problem, mostAtOnce: 1 };
      const found = solved(one);
      const best = bruteForce(makeCandidates(one));
      expect(found.lower, `${seed}`).toBeLessThanOrEqual(best);
      expect(found.upper, `${seed}`).toBe(best);
      if (best > 0 && best < Infinity) held += 1;
    }
    expect(held).toBeGreaterThanOrEqual(atLeast(1));
  });
});

describe("flights between depots", () => {
  it("are proposed where they cost least, drawn at the other depot, and said to be part of what is proved", () => {
    let chosen = 0;
    for (const seed of seeds(10, 100)) {
      const { plan } = transferProblem(60_000 + seed);
      const over: Partial<ResupplyAsked> = {
        classes: [{ classId: "A", hulls: null, turnaroundDays: 0, costPerFlight: 3, everyDays: null }],
        least: "cost",
        arrivals: { kind: "every", days: 4 },
        isBeforeLoadings: false,
      };
      let without: ResupplyAnswer;
      try {
        without = ask(plan, over);
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      const answer = ask(plan, { ...over, betweenDepots: { tripDays: 0.1, costPerFlight: 1 } });
      if (answer.standing !== "plan" || without.standing !== "plan") continue;
      const { sortieStatus } = createEngine(compile(proposedPlan(plan, proposalOf(answer)))).go();
      expect(sortieStatus.every((status) => status === 0)).toBe(true);
      if (without.isProved) expect(answer.bracket.lower ?? 0).toBeLessThanOrEqual(without.bracket.upper ?? 0);
      if (!answer.changes.some(({ kind, flight }) => kind === "added" && flight.origin.kind === "depot")) continue;
      chosen += 1;
      expect(answer.bracket.upper ?? 0).toBeLessThan(without.bracket.upper ?? 0);
      expect(answerSentences(plan, answer)[0]).toContain("and flights between depots");
      expect(answerSentences(plan, without)[0]).toContain("and no flights between depots");
    }
    expect(chosen).toBeGreaterThanOrEqual(atLeast(1));
  });
});

describe("flights between depots, asked for by their days", () => {
  it("cost as little as every choice has it, and may be there before any flight from a source", (context) => {
    const faults: string[] = [];
    let sooner = 0;
    let compared = 0;
    for (const seed of seeds(30, 240)) {
      const { plan: base } = transferProblem(95_000 + seed);
      const plan: PlanSnapshot = {
        ...base,
        craftClasses: base.craftClasses.map((row) => (row.id === "A" ? { ...row, tripDays: 8 } : row)),
      };
      const at = [2, 5, 9, 13].map((days) => plan.asOfAt + (days + (seed % 4) / 4) * DAY);
      const asked: ResupplyAsked = {
        ...usualAsked,
        classes: [{ classId: "A", hulls: null, turnaroundDays: 0, costPerFlight: 3, everyDays: null }],
        least: "cost",
        arrivals: { kind: "list", at },
        isBeforeLoadings: false,
        betweenDepots: { tripDays: 0.5 + (seed % 3), costPerFlight: 1 + (seed % 2) },
      };
      let problem: Problem;
      try {
        ({ problem } = makeProblem(plan, asked));
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      const one = { ...problem, mostAtOnce: 1 };
      const candidates = makeCandidates(one);
      const found = solved(one);
      const best = bruteForce(candidates);
      compared += 1;
      if (found.lower > best || found.upper < best || (found.isProved && found.upper !== best))
        faults.push(`${seed}: every choice ${best}, found ${found.lower} to ${found.upper}`);
      const isSooner = (count: number, cell: number): boolean => {
        const lane = one.lanes[cell % one.lanes.length];
        const departAt = one.instants[Math.floor(cell / one.lanes.length)] ?? 0;
        return count > 0 && lane?.originDepotId != null && departAt + lane.tripMs < plan.asOfAt + 8 * DAY;
      };
      if (found.choice?.some(isSooner) === true) sooner += 1;
    }
    count(context, "flights between depots against every choice", compared);
    expect(faults).toEqual([]);
    expect(sooner).toBeGreaterThanOrEqual(atLeast(1));
  });
});

describe("a probability that is asked for", () => {
  const LOSS = 0.08;
  /** Exactly, over every set of lost flights: how likely all sorties are held; and that at most so many are lost. */
  const exactly = (plan: PlanSnapshot): { share: number; atMost: (lost: number) => number } => {
    const engine = createEngine(compile(plan));
    const { flightIsLost } = engine.input;
    const problem = problemOf({ plan, lanes: [], instants: [] });
    const ahead = plan.flights.filter(
      ({ status }) => status !== "arrived" && status !== "lost" && status !== "cancelled",
    );
    const places = ahead.map(({ id }) => engine.run.plan.flightIds.indexOf(id)).filter((place) => place >= 0);
    let share = 0;
    const lostCount = new Float64Array(places.length + 1);
    for (let set = 0; set < 2 ** places.length; set += 1) {
      let count = 0;
      places.forEach((place, n) => {
        const isLost = (set >> n) & 1;
        flightIsLost[place] = isLost;
        count += isLost;
      });
      const weight = LOSS ** count * (1 - LOSS) ** (places.length - count);
      lostCount[count] = (lostCount[count] ?? 0) + weight;
      if (isHeld(problem, engine.go())) share += weight;
    }
    return { share, atMost: (lost) => lostCount.slice(0, lost + 1).reduce((sum, weight) => sum + weight, 0) };
  };

  it("is reached by the plan that says so; a plan for k lost flights is as likely as at most k being lost", async () => {
    let reached = 0;
    let robust = 0;
    for (const seed of seeds(20, 200)) {
      const { plan } = smallProblem(92_000 + seed);
      const asked: ResupplyAsked = { ...usualAsked, arrivals: { kind: "every", days: 3 }, isBeforeLoadings: false };
      const of = (answer: ResupplyAnswer) => exactly(proposedPlan(plan, proposalOf(answer)));
      const wanted = 0.75 + 0.02 * (seed % 10);
      let answer: ResupplyAnswer;
      try {
        answer = await likelyPlan(asked, wanted, {
          plan: async (question) => await Promise.resolve(ask(plan, question)),
          judge: async (proposal) => {
            const { share, atMost } = of(proposal);
            expect(share, `${seed}`).toBeGreaterThanOrEqual(atMost(proposal.lost) - 1e-9);
            if (proposal.lost > 0) robust += 1;
            return await Promise.resolve({ share: { value: share, standardError: 0 }, replications: 1e9 });
          },
        });
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      if (answer.chance?.isReached === true) {
        reached += 1;
        expect(of(answer).share, `${seed}`).toBeGreaterThanOrEqual(wanted - 1e-8);
        expect(answerSentences(plan, answer).join(" ")).toContain("That no cheaper plan is as likely is not proved.");
      } else if (answer.standing === "plan") expect(of(answer).share, `${seed}`).toBeLessThan(wanted);
    }
    expect(reached).toBeGreaterThanOrEqual(atLeast(1));
    expect(robust).toBeGreaterThanOrEqual(atLeast(1));
  });

  it("is judged by the lower end of what the runs say", () => {
    expect(surelyAtLeast({ value: 0.9, standardError: 0.01 }, 1000)).toBeCloseTo(0.8804, 4);
    expect(surelyAtLeast({ value: 1, standardError: 0 }, 1000)).toBeCloseTo(0.997, 6);
    expect(surelyAtLeast({ value: 1, standardError: 0 }, 0)).toBe(0);
  });
});
