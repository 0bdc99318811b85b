/**
 * One question of resupply in a process of its own, so that compiled code and memory are those of a first question:
 * `node resupply-once.ts WHAT SEED`. Prints one line of JSON.
 */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type ResupplyAsked, usualAsked } from "../../app/resupply/asked.ts";
import { leaveBy } from "../../app/resupply/leave-by.ts";
import { makeProblem } from "../../app/resupply/make-problem.ts";
import { planResupply } from "../../app/resupply/plan-resupply.ts";
import { repair } from "../../app/resupply/repair.ts";
import { loadLinearSolver } from "../../main/service/linear-solver.ts";
import { bareCampaign, familyAsked, familyPlan } from "./resupply-family.ts";
import { loadSolverAlone } from "./whole-flights.ts";

/** Of one question; times are processor time, ms. */
export interface OnceAnswer {
  readonly firstMs: number;
  readonly wholeMs: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly isProved: boolean;
  readonly lossIsProved: boolean;
  /** From the stop to the answer, ms of the clock. */
  readonly stopMs: number | null;
  readonly residentMb: number;
}

const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** The same, asked of the machine every few ms of the clock at most: to ask costs 10 µs, and a search asks often. */
const cheapCpuMs = (() => {
  let askedAt = Number.NEGATIVE_INFINITY;
  let ms = 0;
  return (): number => {
    const now = performance.now();
    if (now - askedAt > 5) {
      askedAt = now;
      ms = cpuMs();
    }
    return ms;
  };
})();

const [what = "", seedText = "1"] = process.argv.slice(2);
const seed = Number(seedText);

const told = (answer: Omit<OnceAnswer, "residentMb">): void =>
  console.log(JSON.stringify({ ...answer, residentMb: process.resourceUsage().maxRSS / 1000 }));

const every = (days: number): ResupplyAsked => ({
  ...usualAsked,
  arrivals: { kind: "every", days },
  isBeforeLoadings: false,
});

const questionOf = (): { plan: PlanSnapshot; asked: ResupplyAsked } => {
  const family = (slots: number, sorties: number, over: Partial<ResupplyAsked>) => {
    const plan = familyPlan(seed, slots, sorties);
    return { plan, asked: familyAsked(plan, over) };
  };
  switch (what) {
    case "flights":
    case "stop":
      return family(130, 40, {});
    case "loss":
      return family(130, 40, { least: "loss" });
    case "one lost":
      return family(130, 40, { lost: 1 });
    case "ten years":
      return family(260, 80, {});
    case "campaign": {
      const plan = bareCampaign(5, seed);
      return { plan, asked: every(6.56235) };
    }
    case "every two days": {
      const plan = bareCampaign(5, seed);
      return { plan, asked: every(2) };
    }
    default:
      throw new Error(`There is no question "${what}".`);
  }
};

/** Longest that is waited for a proof, ms of processor time; those that are promised less are judged by the figure. */
const PATIENCE_MS = what === "one lost" ? 3000 : what === "stop" ? 150 : 20_000;

const search = async (): Promise<void> => {
  const { plan, asked } = questionOf();
  const solve = await loadLinearSolver();
  const from = cpuMs();
  let firstMs = Number.NaN;
  let stoppedAt: number | null = null;
  const answer = planResupply(plan, asked, solve, {
    tell: (progress) => {
      const { partial } = typeof progress === "function" ? progress() : progress;
      if (partial !== undefined && partial.upper !== null && Number.isNaN(firstMs)) firstMs = cpuMs() - from;
    },
    shouldStop: () => {
      if (stoppedAt === null && cheapCpuMs() - from > PATIENCE_MS) stoppedAt = performance.now();
      return stoppedAt !== null;
    },
  });
  told({
    firstMs: Number.isNaN(firstMs) ? cpuMs() - from : firstMs,
    wholeMs: cpuMs() - from,
    ...answer.bracket,
    isProved: answer.isProved,
    lossIsProved: answer.loss?.isProved ?? false,
    stopMs: stoppedAt === null ? null : performance.now() - stoppedAt,
  });
};

/** The linear relaxation of the same problem with whole flights, as the solver alone has it. */
const solverAlone = async (): Promise<void> => {
  const plan = familyPlan(seed);
  const { problem } = makeProblem(plan, familyAsked(plan));
  const solveAlone = await loadSolverAlone();
  const from = cpuMs();
  const { status, objective } = solveAlone(problem, 20);
  const wholeMs = cpuMs() - from;
  told({
    firstMs: wholeMs,
    wholeMs,
    lower: null,
    upper: Number.isFinite(objective) ? objective : null,
    isProved: status === "optimal",
    lossIsProved: false,
    stopMs: null,
  });
};

/** A campaign with the flights that were found, one of them lost: repaired; and its dates to leave by. */
const repaired = async (): Promise<void> => {
  const bare = bareCampaign(5, seed);
  const solve = await loadLinearSolver();
  const quiet = { tell: () => undefined, shouldStop: () => false };
  const asked = every(6.56235);
  const { changes, craft } = planResupply(bare, asked, solve, quiet);
  const flights = changes.map(({ flight }) => flight);
  const plan: PlanSnapshot = { ...bare, craft: [...bare.craft, ...craft], flights };
  const lost = flights[Math.floor(flights.length / 3)]!;
  const { classes, arrivals, isBeforeLoadings, blackouts, goal, untilAt } = asked;
  const question = { classes, arrivals, isBeforeLoadings, blackouts, goal, untilAt };
  const from = cpuMs();
  if (what === "leave by") leaveBy(plan, quiet);
  const answer =
    what === "leave by"
      ? null
      : repair(plan, { ...question, mishaps: [{ kind: "lost", flightId: lost.id }] }, solve, quiet);
  const wholeMs = cpuMs() - from;
  told({
    firstMs: wholeMs,
    wholeMs,
    lower: null,
    upper: answer?.ways[0]?.changes ?? null,
    isProved: answer?.ways[0]?.isProvedLeast ?? false,
    lossIsProved: false,
    stopMs: null,
  });
};

await (what === "solver" ? solverAlone() : what === "repair" || what === "leave by" ? repaired() : search());
