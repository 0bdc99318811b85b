/** Serves as a thread of the pool: one task at a time. It keeps the bases that it was given, and looks at the flags it shares. */
import { getHeapStatistics } from "node:v8";
import { parentPort, workerData } from "node:worker_threads";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Working } from "../../../app/work/working.ts";
import { telling } from "./telling.ts";
import { FLAG, type FromThread, type ToThread } from "./wire.ts";
import type { FindWork } from "./kind.ts";
import { buffersIn } from "./buffers-in.ts";

/** A paused thread looks this often whether it is to stop. */
const PAUSE_LOOK_MS = 10;

/** Twice what a thread has that was started and has computed little. */
const LARGE_BYTES = 120e6;

const flags = new Int32Array(workerData as SharedArrayBuffer);
const bases = new Map<string, unknown>();

const post = (message: FromThread): void => parentPort?.postMessage(message, buffersIn(message));

const workingOn = (taskId: number): Working<unknown> => {
  const isToStop = (): boolean => Atomics.load(flags, FLAG.stop) === taskId;
  return {
    // Partial answers are copied: the computation goes on with its own.
    tell: telling(
      (progress) => parentPort?.postMessage({ kind: "progress", taskId, progress } satisfies FromThread),
      () => performance.now(),
    ),
    shouldStop: () => {
      while (Atomics.load(flags, FLAG.pause) === 1 && !isToStop()) Atomics.wait(flags, FLAG.pause, 1, PAUSE_LOOK_MS);
      return isToStop();
    },
  };
};

const work = async (find: FindWork, message: ToThread): Promise<FromThread> => {
  const { taskId, name, base, forget, asked, part } = message;
  for (const key of forget) bases.delete(key);
  if (base.key !== null && "value" in base) bases.set(base.key, base.value);
  const value = base.key === null ? base.value : bases.get(base.key);
  try {
    const answer = await find(name).compute(value, asked, part, workingOn(taskId));
    return { kind: "answer", taskId, value: answer, isLarge: getHeapStatistics().total_heap_size > LARGE_BYTES };
  } catch (error) {
    // A planning error crosses as data, for an error that crosses a thread loses its fields.
    if (error instanceof PlanningError)
      return { kind: "failure", taskId, failure: { code: error.code, message: error.message, field: error.field } };
    return { kind: "defect", taskId, stack: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
};

/** Answers the pool for as long as the thread lives. `find` gives a computation by its name. */
export const serve = (find: FindWork): void => {
  parentPort?.on("message", (message: ToThread) => void work(find, message).then(post));
};
