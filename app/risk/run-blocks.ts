/** Runs blocks of a job: the part that a worker does. */
import { type Counting, closeBlock, countLevels, countReplication, createCounting } from "./count.ts";
import { type Replicator, createReplicator, drawFor, replicate } from "./replication.ts";
import { BAND_REPLICATIONS, type RiskJob } from "./risk-job.ts";
import { riskModel } from "./risk-model.ts";
import { BLOCK } from "./stream.ts";
import { type Tally, createTally, tallyShape } from "./tally.ts";

/** A job made ready on one thread; it may run any blocks in any order. */
export interface RiskKernel {
  readonly replicator: Replicator;
  readonly counting: Counting;
}

export const createKernel = (job: RiskJob): RiskKernel => {
  const replicator = createReplicator(riskModel(job));
  return { replicator, counting: createCounting(replicator) };
};

/** Blocks whose levels and circumstances are counted: those of the first 20,480 replications, whoever runs them. */
export const BANDED_BLOCKS = BAND_REPLICATIONS / BLOCK;

/** The tally of a part that begins with a block: without room for levels and circumstances where none are counted. */
export const tallyFor = ({ replicator }: RiskKernel, from: number): Tally =>
  createTally(tallyShape(replicator.model), from < BANDED_BLOCKS);

/**
 * Adds blocks [from, until) to a tally. `isStopped` is asked before each block; a block is counted whole or not at
 * all. Returns the first block that was not run.
 */
export const runBlocks = (
  kernel: RiskKernel,
  tally: Tally,
  from: number,
  until: number,
  isStopped: () => boolean = () => false,
): number => {
  const { replicator, counting } = kernel;
  let block = from;
  for (; block < until && !isStopped(); block += 1) {
    const isBanded = block < BANDED_BLOCKS;
    drawFor(replicator, block);
    for (let r = 0; r < BLOCK; r += 1) {
      replicate(replicator, block, r, isBanded);
      countReplication(replicator, counting, tally, isBanded);
    }
    closeBlock(counting, tally);
  }
  countLevels(counting, tally);
  return block;
};

/** What became of one sortie in one replication, for pairing. */
export const PAIRED = { stays: 0, flies: 1, fliesWhenPlanned: 2 } as const;

/**
 * What becomes of each sortie in each replication of blocks [from, until): [(replication) × sorties + sortie]. Two jobs
 * with one seed have the same draws: their tables can be compared row by row.
 */
export const outcomesOf = (
  { replicator }: RiskKernel,
  from: number,
  until: number,
  isStopped: () => boolean = () => false,
): Uint8Array | null => {
  const { run, model } = replicator;
  const sorties = model.sorties.length;
  const table = new Uint8Array((until - from) * BLOCK * sorties);
  for (let block = from; block < until; block += 1) {
    if (isStopped()) return null;
    drawFor(replicator, block);
    for (let r = 0; r < BLOCK; r += 1) {
      replicate(replicator, block, r, false);
      const row = ((block - from) * BLOCK + r) * sorties;
      for (let sortie = 0; sortie < sorties; sortie += 1) {
        const outcome = run.sortieOutcome[sortie] as number;
        // Flies, or waits and flies; one that is out flies already.
        table[row + sortie] =
          outcome === 0 || model.plan.sortieIsOut[sortie] === 1
            ? PAIRED.fliesWhenPlanned
            : outcome === 1
              ? PAIRED.flies
              : PAIRED.stays;
      }
    }
  }
  return table;
};
