/** The long computations: functions of plain data that run in a worker thread. A new one is two lines here. */
import type { PlanSnapshot } from "../../../app/forecast/plan.ts";
import type { ReportInputs } from "../../../app/report/context.ts";
import type { FinishedReport } from "../../../app/report/finished.ts";
import type { ReportFile } from "../../../app/report/request.ts";
import type { TankFitQuestion } from "../../../app/losses/fit/fit-question.ts";
import type { TankFit } from "../../../app/losses/fit/fit-tank.ts";
import { check } from "../../../app/supply/check.ts";
import type { SupplyReport } from "../../../app/supply/report.ts";
import type { Writing } from "../../report/write-report.ts";
import type { RowsTaking } from "../../../app/exchange/rows/read-rows.ts";
import type { SourceQuestion } from "../../exchange/take-source.ts";

/** Tells how far a task has come: a share from 0 to 1 (null: cannot be said) and words for a person. */
export type Progress = (share: number | null, words: string) => void;

interface TaskTypes {
  "supply.check": { input: PlanSnapshot; output: SupplyReport };
  "report.make": { input: ReportInputs; output: FinishedReport };
  "report.write": { input: Writing; output: ReportFile };
  "losses.fit": { input: TankFitQuestion; output: TankFit };
  "rows.read": { input: SourceQuestion; output: RowsTaking };
}

export type TaskName = keyof TaskTypes;
export type TaskInput<N extends TaskName> = TaskTypes[N]["input"];
export type TaskOutput<N extends TaskName> = TaskTypes[N]["output"];

type Tasks = {
  readonly [N in TaskName]: (input: TaskInput<N>, progress: Progress) => TaskOutput<N> | Promise<TaskOutput<N>>;
};

const tasks: Tasks = {
  "supply.check": (plan, progress) => check(plan, (share) => progress(share, "Checking the supply")),
  // The distributions of a fit take longer to load than all the rest: not before one is asked for.
  "losses.fit": async (question) => (await import("../../../app/losses/fit/fit-tank.ts")).fitTank(question),
  // The writers of PDF and workbooks take longer to load than all the rest: not before they are asked for.
  "report.make": async (inputs) => (await import("../../report/make-report.ts")).makeReport(inputs),
  "report.write": async (writing, progress) =>
    await (
      await import("../../report/write-report.ts")
    ).writeReport(writing, (share) => progress(share, "Writing the report")),
  "rows.read": async (question, progress) => {
    progress(null, "Reading the file");
    // What reads workbooks takes a while to load: not before it is asked for.
    const { takeSource } = await import("../../exchange/take-source.ts");
    return await takeSource(question, (share) => progress(share, "Checking the rows"));
  },
};

/** Runs a task by name, in whichever thread this is called. */
export const runTask = async <N extends TaskName>(
  name: N,
  input: TaskInput<N>,
  progress: Progress,
): Promise<TaskOutput<N>> => await tasks[name](input, progress);
