/** Where tasks run: in worker threads, or here and now (tests, one-shot commands). */
import { type Progress, runTask, type TaskInput, type TaskName, type TaskOutput } from "./task.ts";

export interface TaskRunner {
  /** Rejects with an AbortError when stopped. */
  run<N extends TaskName>(
    name: N,
    input: TaskInput<N>,
    signal: AbortSignal,
    progress: Progress,
  ): Promise<TaskOutput<N>>;
  close(): Promise<void>;
}

/** Runs each task in this thread; it can be stopped only before it begins. */
export const inlineRunner = (): TaskRunner => ({
  run: async (name, input, signal, progress) => {
    signal.throwIfAborted();
    return await runTask(name, input, progress);
  },
  close: () => Promise.resolve(),
});
