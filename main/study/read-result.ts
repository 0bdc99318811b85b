/** The merged result of a study, read whole. */
import { existsSync, readFileSync } from "node:fs";
import { PlanningError } from "../../app/ground/failure.ts";
import type { StudyResult } from "../../app/study/study-map.ts";
import { questionOf, resultPath, type StudyFolder } from "./study-folder.ts";

/** Throws "not found" before the merge, and "refused" for the result of another study. */
export const readResult = ({ folder, plan }: StudyFolder): StudyResult => {
  const path = resultPath(folder);
  if (!existsSync(path))
    throw new PlanningError(
      "not found",
      `${folder} has no result yet. Run it, and then: study merge ${folder}`,
      "folder",
    );
  let read: {
    readonly head: { readonly question: string };
    readonly rows: readonly (readonly [number, ...StudyResult["rows"][number]])[];
  };
  try {
    read = JSON.parse(readFileSync(path, "utf8")) as typeof read;
  } catch {
    throw new PlanningError(
      "invalid input",
      `result.json in ${folder} is damaged: delete it, and merge again.`,
      "folder",
    );
  }
  if (read.head.question !== questionOf(plan))
    throw new PlanningError(
      "refused",
      `result.json in ${folder} is of another study: move it away, and merge again.`,
      "folder",
    );
  return {
    name: plan.asked.name,
    planCase: plan.planCase,
    columns: plan.columns.map(({ name, unit }) => ({ name, unit })),
    inputs: plan.asked.inputs.length,
    today: plan.today,
    rows: read.rows.map(([, ...cells]) => cells),
  };
};
