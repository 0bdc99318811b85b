/** The merged result of a study folder as an answer that a ledger keeps. */
import { PlanningError } from "../../app/ground/failure.ts";
import { MAX_CELLS } from "../../app/study/ask-study.ts";
import { prepareStudy } from "../../app/study/study.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { packRows } from "../../app/study/study-table.ts";
import { readResult } from "./read-result.ts";
import { openStudy, readInputs, sha256 } from "./study-folder.ts";

interface TakenStudy {
  readonly answer: StudyAnswer;
  /** SHA-256 of the plan and the readings that the study was planned with. */
  readonly planHash: string;
}

/** Throws "not found" before the merge, "refused" for inputs or a result that are not this study's, or too large to keep. */
export const takenStudy = (folder: string): TakenStudy => {
  const study = openStudy(folder);
  const base = readInputs(study);
  const { points, columns, inputs: planHash, asked } = study.plan;
  if (points * columns.length > MAX_CELLS)
    throw new PlanningError(
      "refused",
      `This study has ${points.toLocaleString("en")} points of ${columns.length} figures each: too many to be kept in a ledger. Its result stays in ${folder}.`,
      "folder",
    );
  const { rows } = readResult(study);
  if (rows.length !== points)
    throw new PlanningError("refused", `result.json in ${folder} does not have all points: merge again.`, "folder");
  const { plan } = base;
  const { inputs } = prepareStudy(base);
  return {
    planHash,
    answer: {
      planCaseId: plan.planCase.id,
      planCase: plan.planCase.name,
      inputHash: sha256(`${planHash} ${JSON.stringify(asked)}`),
      asked,
      inputs: inputs.map(({ words, unit, today }) => ({ words, unit, today })),
      columns: columns.map(({ name, unit, sortieId }) => ({
        name,
        unit,
        ...(sortieId === undefined ? {} : { sortieId }),
      })),
      points,
      from: 0,
      rows: packRows(rows, columns.length),
      rankings: [],
    },
  };
};
