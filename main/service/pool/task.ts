/** The long computations: pure functions of plain data that run in a worker thread. One line a task. */
import type { PlanSnapshot } from "../../../app/forecast/plan.ts";
import { check } from "../../../app/supply/check.ts";

/** Tells how far a task has come: a share from 0 to 1 (null: cannot be said) and words for a person. */
export type Progress = (share: number | null, words: string) => void;

export const tasks = {
  "supply.check": (plan: PlanSnapshot, _progress: Progress) => check(plan),
} as const;

export type TaskName = keyof typeof tasks;
export type TaskInput<N extends TaskName> = Parameters<(typeof tasks)[N]>[0];
export type TaskOutput<N extends TaskName> = Awaited<ReturnType<(typeof tasks)[N]>>;

/** Runs a task by name, in whichever thread this is called. */
export const runTask = async <N extends TaskName>(
  name: N,
  input: TaskInput<N>,
  progress: Progress,
): Promise<TaskOutput<N>> => {
  const task = tasks[name] as unknown as (input: TaskInput<N>, progress: Progress) => TaskOutput<N>;
  return await task(input, progress);
};
