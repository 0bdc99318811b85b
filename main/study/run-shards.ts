/** This machine's work on a study: all open shards, or one, in the threads, each kept when it is whole. */
import { availableParallelism } from "node:os";
import { PlanningError } from "../../app/ground/failure.ts";
import type { StudyRun } from "../../app/study/study-run.ts";
import type { Progress } from "../../app/work/working.ts";
import type { WorkRunner } from "../service/work/runner.ts";
import { inlineRunner, isStopped } from "../service/work/runner.ts";
import { arrayRange, beginShard, readShard, standingOf } from "./shard-file.ts";
import { openStudy, pointsOf, readInputs, type StudyFolder } from "./study-folder.ts";

/** Points that a thread computes before it is heard of again. */
const CHUNK = 512;
/** Points of a run that has not yet seen how long one takes. */
const FIRST_CHUNK = 8;
const CHUNK_MS = 200;

export interface Running {
  readonly runner: WorkRunner;
  readonly signal: AbortSignal;
  readonly progress: (progress: Progress) => void;
}

/**
 * One shard is one strand: a thread would be started only to be waited for, which takes longer than a small shard. Not
 * where one point takes so long that an interruption would not be heard.
 */
const isQuick = ({ plan }: StudyFolder, shard: number | null): boolean =>
  shard !== null && plan.asked.ask.every(({ kind }) => kind === "supply" || kind === "verdict");

/** `shard` null: all that are open. Throws in words what cannot be run; stopped, whole shards stay. */
export const runShards = async (folder: string, shard: number | null, running: Running): Promise<StudyRun> => {
  const study: StudyFolder = openStudy(folder);
  const { plan } = study;
  const base = readInputs(study);
  const runner = isQuick(study, shard) ? inlineRunner() : running.runner;
  const { open, spoiled } =
    shard === null
      ? standingOf(study)
      : ((state) => ({
          open: state.is === "whole" ? [] : [shard],
          spoiled: state.is === "damaged" || state.is === "foreign" ? [{ shard, why: state.why }] : [],
        }))(readShard(study, shard));
  const wanted = open.reduce((sum, n) => {
    const { from, until } = pointsOf(plan, n);
    return sum + until - from;
  }, 0);
  let done = 0;
  const left = new Set(open);
  let chunk = FIRST_CHUNK;
  const tellShare = (): void =>
    running.progress({
      share: wanted === 0 ? 1 : done / wanted,
      words: "Running the study",
      done: { count: done, unit: "points" },
    });

  const runOne = async (n: number): Promise<void> => {
    const writer = beginShard(study, n);
    try {
      const { from, until } = pointsOf(plan, n);
      for (let at = from; at < until;) {
        const to = Math.min(until, at + chunk);
        const began = performance.now();
        // eslint-disable-next-line no-await-in-loop -- the lines of a shard stand in their order
        const lines = await runner.run(
          { name: "study.rows", base, baseKey: study.identity, asked: { from: at, until: to }, lane: "batch" },
          running.signal,
          () => undefined,
        );
        const ms = Math.max(1, performance.now() - began);
        chunk = Math.max(1, Math.min(CHUNK, Math.ceil(((to - at) * CHUNK_MS) / ms), chunk * 8));
        writer.write(lines);
        done += to - at;
        at = to;
        tellShare();
      }
      writer.keep();
      left.delete(n);
    } finally {
      writer.drop();
    }
  };

  const queue = [...open];
  let hasFailed = false;
  const strand = async (): Promise<void> => {
    for (let n = queue.shift(); n !== undefined && !hasFailed; n = queue.shift())
      try {
        // eslint-disable-next-line no-await-in-loop -- a strand does one shard after the other
        await runOne(n);
      } catch (error) {
        hasFailed = true;
        throw error;
      }
  };
  tellShare();
  const strands = Array.from({ length: Math.min(open.length, availableParallelism()) }, strand);
  const ends = await Promise.allSettled(strands);
  const failures = ends.flatMap((end) => (end.status === "rejected" ? [end.reason as unknown] : []));
  const failure = failures.find((error) => !isStopped(error));
  if (failure !== undefined)
    throw failure instanceof PlanningError ? failure : new Error("a shard", { cause: failure });
  return {
    points: plan.points,
    shards: plan.shards,
    computed: open.length - left.size,
    found: (shard === null ? plan.shards : 1) - open.length,
    spoiled,
    open: arrayRange([...left]),
    isStopped: failures.length > 0,
  };
};
