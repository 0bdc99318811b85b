/** The questions about risk: what is asked, which parts the threads run, and how the parts become an answer. */
import { z } from "zod";
import { PlanningError } from "../ground/failure.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Reading } from "../ledger/journal.ts";
import type { Leading, Working } from "../work/working.ts";
import { stopped } from "../work/working.ts";
import { answerOf } from "./answer-of.ts";
import type { RiskAnswer, RunEnd } from "./answer.ts";
import { bandInstants } from "./band-instants.ts";
import { shareOf } from "./estimate.ts";
import { KERNEL_VERSION, type RiskJob } from "./risk-job.ts";
import { riskModel } from "./risk-model.ts";
import { BANDED_BLOCKS, type RiskKernel, createKernel, runBlocks, tallyFor } from "./run-blocks.ts";
import { BLOCK } from "./stream.ts";
import { COUNT, type Tally, addTally, createTally, tallyShape } from "./tally.ts";

/** The most replications of one run: counts stay exact far beyond, this is hours of one machine. */
export const MAX_RUNS = 100_000_000;

const seed = z.int().min(0).max(4_294_967_295);
const runs = z.int().min(BLOCK, `at least one block of ${BLOCK}`).max(MAX_RUNS);

/** What a run is asked for. */
export const runAsked = z.strictObject({
  seed,
  /** At most so many replications, rounded up to whole blocks of 64. */
  runs,
  /** Stops once the standard error of the probability that all fly when planned is at most this; null: runs them all. */
  untilError: z.number().gt(0).max(0.5).nullable(),
  /** full: with the bands of every level; quick: without. */
  detail: z.enum(["quick", "full"]),
});
export type RunAsked = Readonly<z.infer<typeof runAsked>>;

/** What the computation starts from: sent once to each thread, the same object each time. */
export interface RiskBase {
  readonly plan: PlanSnapshot;
  readonly readings: readonly Reading[];
  /** SHA-256 of the plan and the readings, hexadecimal. */
  readonly inputHash: string;
}

/** Blocks [from, until) of a run. */
export interface BlockRange {
  readonly from: number;
  readonly until: number;
}

const jobOf = ({ plan, readings }: RiskBase, asked: RunAsked): RiskJob => ({
  plan,
  readings,
  seed: asked.seed,
  bandsAt: asked.detail === "full" ? bandInstants(plan) : [],
  variant: {},
});

/** Kernels of a thread: the latest of each base and job, for a run comes in many parts. */
const kernels = new WeakMap<RiskBase, Map<string, RiskKernel>>();
const MAX_KERNELS = 4;

export const kernelFor = (base: RiskBase, key: string, make: () => RiskJob): RiskKernel => {
  const known = kernels.get(base) ?? new Map<string, RiskKernel>();
  kernels.set(base, known);
  const found = known.get(key);
  if (found !== undefined) return found;
  const [oldest] = known.keys();
  if (oldest !== undefined && known.size >= MAX_KERNELS) known.delete(oldest);
  const kernel = createKernel(make());
  known.set(key, kernel);
  return kernel;
};

const keyOf = ({ seed: of, detail }: RunAsked): string => `run/${of}/${detail}`;

/** Whether there is a sortie that could fly or not. */
export const isRiskThere = (plan: PlanSnapshot): boolean =>
  plan.sorties.some((row) => row.status === "planned" && row.loadAt <= plan.horizonAt);

/** Throws "refused" where there is nothing to ask about. */
export const refuseEmpty = (plan: PlanSnapshot): void => {
  if (!isRiskThere(plan))
    throw new PlanningError(
      "refused",
      `${plan.planCase.name} has no sortie planned before its forecast ends: there is nothing that could fly or not.`,
      "planCaseId",
    );
};

/** One part, in a thread. Throws "cancelled" where it was stopped before it was whole. */
export const runPart = (base: RiskBase, asked: RunAsked, { from, until }: BlockRange, working: Working): Tally => {
  const kernel = kernelFor(base, keyOf(asked), () => jobOf(base, asked));
  const tally = tallyFor(kernel, from);
  if (runBlocks(kernel, tally, from, until, () => working.shouldStop()) < until) throw stopped();
  return tally;
};

/** The first marks: few blocks, so that a large plan soon says something, too; not more, for each costs a round of all threads. */
const FIRST_MARKS = [2, 16];

/**
 * Marks at which a run tells what is known and, from the first 64 blocks on, looks whether it is done: by number, never by
 * the clock, so that it always ends at the same one. The end of the banded blocks is one of them: no part mixes banded and
 * plain ones.
 */
const nextMark = (block: number, last: number): number => {
  const early = FIRST_MARKS.find((mark) => mark > block);
  if (early !== undefined) return Math.min(last, early);
  const step = block < BANDED_BLOCKS ? STEP_BLOCKS : 512;
  const mark = Math.floor(block / step) * step + step;
  return Math.min(last, block < BANDED_BLOCKS ? Math.min(mark, BANDED_BLOCKS) : mark);
};

/** Before so many blocks an error is not known well enough to end by it. */
const STEP_BLOCKS = 64;

/** Blocks of a part: 20 to 100 ms for a plan of usual size. */
const PART_BLOCKS = 32;

const partsOf = (from: number, until: number, threads: number): BlockRange[] => {
  const blocks = Math.min(PART_BLOCKS, Math.max(1, Math.ceil((until - from) / threads)));
  const parts: BlockRange[] = [];
  for (let at = from; at < until; at += blocks) parts.push({ from: at, until: Math.min(until, at + blocks) });
  return parts;
};

/** Leads a run over the threads. Stopped, it answers with the blocks that are whole, and says so. */
export const leadRun = async (
  base: RiskBase,
  asked: RunAsked,
  leading: Leading<RiskAnswer, BlockRange, Tally>,
): Promise<RiskAnswer> => {
  refuseEmpty(base.plan);
  const model = riskModel(jobOf(base, asked));
  const sum = createTally(tallyShape(model));
  const last = Math.ceil(asked.runs / BLOCK);
  const identity = { seed: asked.seed, inputHash: base.inputHash, kernelVersion: KERNEL_VERSION };
  const answer = (end: RunEnd): RiskAnswer => answerOf(model, sum, identity, end);
  const isExact = (): boolean => {
    const count = sum.counts[COUNT.allFirstTry] as number;
    const { standardError } = shareOf(count, sum.counts[COUNT.replications] as number);
    return asked.untilError !== null && standardError <= asked.untilError;
  };
  let block = 0;
  while (block < last) {
    const mark = nextMark(block, last);
    let done = 0;
    const parts = partsOf(block, mark, leading.threads);
    // eslint-disable-next-line no-await-in-loop -- whether there is a next round hangs on this one
    const tallies = await leading.runParts(parts, () => {
      done += 1;
      const count = sum.counts[COUNT.replications] as number;
      leading.tell({
        share: (block + ((mark - block) * done) / parts.length) / last,
        words: "Running the plan",
        done: { count, unit: "runs" },
      });
    });
    for (const [index, tally] of tallies.entries()) {
      // Only an unbroken row of blocks counts, so that it can be gone on with and replayed.
      if (tally === null) return answer("stopped");
      addTally(sum, tally);
      block = (parts[index] as BlockRange).until;
    }
    leading.tell(() => ({
      share: block / last,
      words: "Running the plan",
      done: { count: sum.counts[COUNT.replications] as number, unit: "runs" },
      partial: answer("not finished"),
    }));
    if (block >= STEP_BLOCKS && isExact()) return answer("error reached");
    if (block < last && leading.shouldStop()) return answer("stopped");
  }
  return answer("number reached");
};
