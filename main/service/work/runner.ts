/** Where computations run: in threads, or here and now (tests). */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Lane } from "../../../app/contract/operation.ts";
import type { Progress } from "../../../app/work/working.ts";
import type { FindWork } from "./kind.ts";
import { type AnswerOf, type AskedOf, type BaseOf, type WorkName, workOf } from "./works.ts";

export interface Task<N extends WorkName> {
  readonly name: N;
  readonly base: BaseOf<N>;
  /** Under which threads keep the base; null: it is sent with every task. */
  readonly baseKey: string | null;
  readonly asked: AskedOf<N>;
  readonly lane: Lane;
}

export interface WorkRunner {
  /**
   * When `stop` is aborted the computation is asked to stop: what it then returns is the answer, and where it returns
   * nothing in time the promise rejects with an AbortError.
   */
  run<N extends WorkName>(task: Task<N>, stop: AbortSignal, tell: (progress: Progress) => void): Promise<AnswerOf<N>>;
  close(): Promise<void>;
}

export const abortError = (): Error => new DOMException("Stopped before it was finished.", "AbortError");

/** What a part of a stopped computation throws, one way or the other. */
export const isStopped = (error: unknown): boolean =>
  (error instanceof PlanningError && error.code === "cancelled") ||
  (error instanceof Error && error.name === "AbortError");

const told = (progress: Progress | (() => Progress)): Progress =>
  typeof progress === "function" ? progress() : progress;

/** Runs each computation in this thread; a part after the other where there are several. */
export const inlineRunner = (find: FindWork = workOf): WorkRunner => ({
  run: async ({ name, base, asked }, stop, tell) => {
    if (stop.aborted) throw abortError();
    const work = find(name);
    const working = {
      tell: (progress: Progress | (() => Progress)): void => tell(told(progress)),
      shouldStop: () => stop.aborted,
    };
    if (work.lead === null) return (await work.compute(base, asked, null, working)) as AnswerOf<typeof name>;
    const quiet = { tell: () => undefined, shouldStop: working.shouldStop };
    const runParts = async (
      parts: readonly unknown[],
      onDone?: (done: unknown, place: number) => void,
    ): Promise<readonly unknown[]> => {
      const answers: unknown[] = [];
      for (const [index, part] of parts.entries()) {
        // eslint-disable-next-line no-await-in-loop -- one thread: one after the other
        const done = stop.aborted ? null : await runPart(() => work.compute(base, asked, part, quiet));
        answers.push(done);
        if (done !== null) onDone?.(done, index);
      }
      return answers;
    };
    return (await work.lead(base, asked, { ...working, threads: 1, runParts })) as AnswerOf<typeof name>;
  },
  close: () => Promise.resolve(),
});

/** The part's answer; null if it was stopped. */
export const runPart = async (run: () => unknown): Promise<unknown> => {
  try {
    return await run();
  } catch (error) {
    if (isStopped(error)) return null;
    throw error;
  }
};
