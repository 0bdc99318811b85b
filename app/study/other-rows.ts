/** What verdict, risk and resupply say of one point, as one row each. */
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Reading } from "../ledger/journal.ts";
import type { ResupplyAsked } from "../resupply/asked.ts";
import type { SolveLinear } from "../resupply/linear.ts";
import { planResupply } from "../resupply/plan-resupply.ts";
import { answerOf } from "../risk/answer-of.ts";
import type { RiskAnswer } from "../risk/answer.ts";
import { KERNEL_VERSION } from "../risk/risk-job.ts";
import { createKernel, runBlocks, tallyFor } from "../risk/run-blocks.ts";
import { BLOCK } from "../risk/stream.ts";
import { addTally, createTally, tallyShape } from "../risk/tally.ts";
import { glance } from "../supply/glance.ts";
import type { Working } from "../work/working.ts";
import { stopped } from "../work/working.ts";
import { type Cell, type Column, sortieNames } from "./columns.ts";

export const verdictColumns: readonly Column[] = [
  { name: "verdict", unit: "" },
  { name: "breaks", unit: "" },
  { name: "conditions", unit: "" },
];

export const verdictRow = (plan: PlanSnapshot): readonly Cell[] => {
  const { word, breaks, conditions } = glance(plan, forecast(plan)).verdict;
  return [word, breaks.length, conditions.length];
};

export const riskColumns = (plan: PlanSnapshot, sortieIds: readonly string[]): readonly Column[] => {
  const names = sortieNames(plan, sortieIds);
  return [
    { name: "all fly when planned", unit: "" },
    { name: "all fly when planned: error", unit: "" },
    { name: "all fly", unit: "" },
    { name: "all fly: error", unit: "" },
    { name: "sorties flown", unit: "" },
    ...sortieIds.flatMap((id) => [
      { name: `${names.get(id) ?? id}: flies when planned`, unit: "", sortieId: id },
      { name: `${names.get(id) ?? id}: delay P50`, unit: "days", sortieId: id },
      { name: `${names.get(id) ?? id}: delay P90`, unit: "days", sortieId: id },
    ]),
  ];
};

/** A run of the risk in one piece: the answer that the parts of a run in threads add up to. Throws "cancelled". */
const riskInOne = (
  plan: PlanSnapshot,
  readings: readonly Reading[],
  { seed, runs }: { readonly seed: number; readonly runs: number },
  working: Working,
): RiskAnswer => {
  const kernel = createKernel({ plan, readings, seed, bandsAt: [], variant: {} });
  const { model } = kernel.replicator;
  const last = Math.ceil(runs / BLOCK);
  const tally = tallyFor(kernel, 0);
  if (runBlocks(kernel, tally, 0, last, () => working.shouldStop()) < last) throw stopped();
  const sum = createTally(tallyShape(model));
  addTally(sum, tally);
  return answerOf(model, sum, { seed, inputHash: "", kernelVersion: KERNEL_VERSION }, "number reached");
};

export const riskRow = (
  plan: PlanSnapshot,
  readings: readonly Reading[],
  sortieIds: readonly string[],
  asked: { readonly seed: number; readonly runs: number },
  working: Working,
): readonly Cell[] => {
  const answer = riskInOne(plan, readings, asked, working);
  const of = new Map(answer.sorties.map((row) => [row.sortieId, row]));
  return [
    answer.allFlyWhenPlanned.value,
    answer.allFlyWhenPlanned.standardError,
    answer.allFly.value,
    answer.allFly.standardError,
    answer.sortiesFlown.value,
    ...sortieIds.flatMap((id): readonly Cell[] => {
      const row = of.get(id);
      return [
        row?.fliesWhenPlanned.value ?? null,
        row?.delayDays?.p50.value ?? null,
        row?.delayDays?.p90.value ?? null,
      ];
    }),
  ];
};

export const resupplyColumns: readonly Column[] = [
  { name: "resupply", unit: "" },
  { name: "flights", unit: "" },
  { name: "cost", unit: "" },
  { name: "at least", unit: "" },
  { name: "at most", unit: "" },
  { name: "proved", unit: "" },
  { name: "held", unit: "" },
];

/** Throws "refused" where the question cannot be asked of the plan; "cancelled" where it was stopped before it was whole. */
export const resupplyRow = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  solve: SolveLinear,
  working: Working,
): readonly Cell[] => {
  const quiet = { tell: () => undefined, shouldStop: () => working.shouldStop() };
  const answer = planResupply(plan, asked, solve, quiet);
  // Half a search gives other numbers on another day.
  if (answer.isStopped) throw stopped();
  const { standing, proposed, bracket, isProved } = answer;
  return [
    standing,
    proposed?.flights ?? null,
    proposed?.cost ?? null,
    bracket.lower,
    bracket.upper,
    isProved ? "yes" : "no",
    proposed?.held ?? null,
  ];
};
