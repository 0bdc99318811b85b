/** The folder of a study: study.json, the plan, whose SHA-256 is its identity, and inputs.json, what it is computed from. */
import { existsSync, mkdirSync, readFileSync, readdirSync } from "node:fs";
import { createHash } from "node:crypto";
import { join } from "node:path";
import { z } from "zod";
import product from "../../package.json" with { type: "json" };
import { fromTypedJson, toTypedJson } from "../../app/contract/typed-json.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { parseInput } from "../../app/ground/parse-input.ts";
import { type StudyAsked, studyAsked } from "../../app/study/question.ts";
import type { Study, StudyBase } from "../../app/study/study.ts";
import { writeWhole } from "./write-whole.ts";

/** A common limit of array jobs. */
export const MAX_SHARDS = 1000;

const sha = z.string().regex(/^[0-9a-f]{64}$/);

const planFile = z.strictObject({
  format: z.literal("coldstock-study"),
  version: z.literal(1),
  program: z.string().max(40),
  /** SHA-256 of inputs.json. */
  inputs: sha,
  planCase: z.string().max(80),
  points: z.int().min(1),
  shards: z.int().min(1).max(MAX_SHARDS),
  columns: z.array(z.strictObject({ name: z.string(), unit: z.string(), sortieId: z.string().optional() })),
  /** Of each input the value that changes nothing, where there is one. */
  today: z.array(z.number().nullable()),
  asked: studyAsked,
});
export type StudyPlan = Readonly<z.infer<typeof planFile>>;

export interface StudyFolder {
  readonly folder: string;
  readonly plan: StudyPlan;
  /** SHA-256 of study.json as it lies there. */
  readonly identity: string;
}

export const sha256 = (text: string | Uint8Array): string => createHash("sha256").update(text).digest("hex");

export const studyPath = (folder: string): string => join(folder, "study.json");
const inputsPath = (folder: string): string => join(folder, "inputs.json");
export const shardsPath = (folder: string): string => join(folder, "shards");
export const resultPath = (folder: string): string => join(folder, "result.json");

/** What the results answer, whatever the cut: all of the plan but the number of shards. */
export const questionOf = (plan: StudyPlan): string => sha256(JSON.stringify({ ...plan, shards: null }));

/** Shard `n` has the points [from, until). */
export const pointsOf = (
  { points, shards }: StudyPlan,
  n: number,
): { readonly from: number; readonly until: number } => ({
  from: Math.floor((n * points) / shards),
  until: Math.floor(((n + 1) * points) / shards),
});

const notThere = (folder: string): never => {
  throw new PlanningError("not found", `${folder} is not the folder of a study: it has no study.json.`, "folder");
};

/** Throws "not found" or "invalid input" for a folder that holds no study of this program's version. */
export const openStudy = (folder: string): StudyFolder => {
  if (!existsSync(studyPath(folder))) notThere(folder);
  const text = readFileSync(studyPath(folder), "utf8");
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    throw new PlanningError("invalid input", `study.json in ${folder} is damaged: plan the study anew.`, "folder");
  }
  if ((read as { readonly format?: unknown } | null)?.format !== "coldstock-study")
    throw new PlanningError(
      "invalid input",
      `study.json in ${folder} is not a planned study. Plan it with: study plan LEDGER study.json FOLDER, into a folder of its own.`,
      "folder",
    );
  const plan = parseInput(planFile, read);
  if (plan.program !== product.version)
    throw new PlanningError(
      "refused",
      `This study was planned by version ${plan.program} of the program; this is ${product.version}. Numbers of two versions are not mixed: run it with that one, or plan it anew.`,
      "folder",
    );
  return { folder, plan, identity: sha256(text) };
};

/** What the study is computed from, as it was frozen. Throws "refused" where it has been changed since. */
export const readInputs = ({ folder, plan }: StudyFolder): StudyBase => {
  const path = inputsPath(folder);
  if (!existsSync(path)) throw new PlanningError("not found", `inputs.json is missing in ${folder}.`, "folder");
  const text = readFileSync(path, "utf8");
  if (sha256(text) !== plan.inputs)
    throw new PlanningError(
      "refused",
      `inputs.json in ${folder} is not what the study was planned with: it was changed, or belongs to another study. Nothing was computed; plan the study anew.`,
      "folder",
    );
  return { ...(fromTypedJson(text) as Omit<StudyBase, "asked">), asked: plan.asked };
};

const isForeign = (folder: string): boolean =>
  existsSync(folder) && !existsSync(studyPath(folder)) && readdirSync(folder).length > 0;

/**
 * Plans a study into a folder: a new or an empty one, or the one of the very same study. Throws "refused" for any other,
 * and "storage" where it cannot be written.
 */
export const planStudy = (
  folder: string,
  { plan, readings }: StudyBase,
  study: Study,
  shards: number,
): StudyFolder & { readonly wasThere: boolean } => {
  if (isForeign(folder))
    throw new PlanningError(
      "refused",
      `${folder} has other files in it. Give the study a folder of its own.`,
      "folder",
    );
  const inputs = toTypedJson({ plan, readings });
  const asked: StudyAsked = study.asked;
  const made: StudyPlan = {
    format: "coldstock-study",
    version: 1,
    program: product.version,
    inputs: sha256(inputs),
    planCase: plan.planCase.name,
    points: study.points,
    shards,
    columns: study.columns.map((column) => ({ ...column })),
    today: study.inputs.map(({ today }) => today),
    asked,
  };
  const text = `${JSON.stringify(made, null, 2)}\n`;
  if (existsSync(studyPath(folder))) {
    // The cut is no part of the question: a study that is cut already stays so.
    const there = openStudy(folder);
    if (questionOf(there.plan) !== questionOf(parseInput(planFile, JSON.parse(text))))
      throw new PlanningError(
        "refused",
        `${folder} holds another study, or one of another state of the ledger. Give this one a folder of its own.`,
        "folder",
      );
    return { ...there, wasThere: true };
  }
  try {
    mkdirSync(shardsPath(folder), { recursive: true });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new PlanningError("storage", `The folder ${folder} cannot be made: ${why}.`, "folder");
  }
  writeWhole(inputsPath(folder), [inputs]);
  // The plan last: a folder with a study.json is whole.
  writeWhole(studyPath(folder), [text]);
  return { ...openStudy(folder), wasThere: false };
};
