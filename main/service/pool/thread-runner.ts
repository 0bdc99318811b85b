/** A pool of worker threads for tasks. A stopped task's thread is ended, whatever it is doing, and replaced. */
import { availableParallelism } from "node:os";
import { MessageChannel } from "node:worker_threads";
import { Piscina } from "piscina";
import { PlanningError } from "../../../app/contract/failure.ts";
import type { TaskRunner } from "./runner.ts";
import type { TaskInput, TaskName, TaskOutput } from "./task.ts";
import type { WorkerAnswer, WorkerQuestion } from "./worker-wire.ts";

/** More than this many threads gain nothing here. */
const MOST_THREADS = 8;
const MOST_WAITING = 64;

/** Room for what is made and kept within one task, such as a hundred thousand rows: a small nursery is cleared far too often. */
const NURSERY_MB = 96;

const startPool = (workerFile: string): Piscina =>
  new Piscina({
    filename: workerFile,
    name: "work",
    minThreads: 1,
    maxThreads: Math.min(MOST_THREADS, Math.max(1, availableParallelism() - 1)),
    maxQueue: MOST_WAITING,
    idleTimeout: Infinity,
    resourceLimits: { maxYoungGenerationSizeMb: NURSERY_MB },
  });

/** `workerFile`: path of the worker's program (source or built). `isWarm`: a thread is started now, not at first need. */
export const threadRunner = (workerFile: string, isWarm: boolean): TaskRunner => {
  let pool = isWarm ? startPool(workerFile) : null;
  return {
    run: async <N extends TaskName>(
      name: N,
      input: TaskInput<N>,
      signal: AbortSignal,
      progress: (share: number | null, words: string) => void,
    ): Promise<TaskOutput<N>> => {
      pool ??= startPool(workerFile);
      const { port1: here, port2: there } = new MessageChannel();
      here.on("message", ([share, words]: [number | null, string]) => progress(share, words));
      try {
        const question: WorkerQuestion = { name, input, port: there };
        const answer = (await pool.run(question, { signal, transferList: [there] })) as WorkerAnswer;
        if ("failure" in answer)
          throw new PlanningError(answer.failure.code, answer.failure.message, answer.failure.field);
        return answer.value as TaskOutput<N>;
      } finally {
        here.close();
      }
    },
    close: async () => {
      await pool?.destroy();
      pool = null;
    },
  };
};
