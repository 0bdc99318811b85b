/** The long computations: pure functions of plain data that run in a worker thread. A new one is two lines here. */
import type { PlanSnapshot } from "../../../app/forecast/plan.ts";
import { check } from "../../../app/supply/check.ts";
import type { SupplyReport } from "../../../app/supply/report.ts";

/** Tells how far a task has come: a share from 0 to 1 (null: cannot be said) and words for a person. */
export type Progress = (share: number | null, words: string) => void;

interface TaskTypes {
  "supply.check": { input: PlanSnapshot; output: SupplyReport };
}

export type TaskName = keyof TaskTypes;
export type TaskInput<N extends TaskName> = TaskTypes[N]["input"];
export type TaskOutput<N extends TaskName> = TaskTypes[N]["output"];

type Tasks = { readonly [N in TaskName]: (input: TaskInput<N>, progress: Progress) => TaskOutput<N> };

const tasks: Tasks = {
  "supply.check": (plan, progress) => check(plan, (share) => progress(share, "Checking the supply")),
};

/** Runs a task by name, in whichever thread this is called. */
export const runTask = <N extends TaskName>(name: N, input: TaskInput<N>, progress: Progress): TaskOutput<N> =>
  tasks[name](input, progress);
