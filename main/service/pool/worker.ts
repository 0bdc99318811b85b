/** The program of a worker thread: one task at a time, progress ten times a second at most. */
import { PlanningError } from "../../../app/contract/failure.ts";
import { runTask, type TaskInput, type TaskName } from "./task.ts";
import type { WorkerAnswer, WorkerQuestion } from "./worker-wire.ts";

const PROGRESS_INTERVAL_MS = 100;

/** A planning error crosses as data, for an error that crosses a thread loses its fields. Others are defects.
 * The pool finds this function by its name. */
export const work = async ({ name, input, port }: WorkerQuestion): Promise<WorkerAnswer> => {
  let toldAt = -Infinity;
  try {
    const value = await runTask(name as TaskName, input as TaskInput<TaskName>, (share, words) => {
      const now = performance.now();
      if (now - toldAt < PROGRESS_INTERVAL_MS) return;
      toldAt = now;
      port.postMessage([share, words]);
    });
    return { value };
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    return { failure: { code: error.code, message: error.message, field: error.field } };
  } finally {
    port.close();
  }
};
