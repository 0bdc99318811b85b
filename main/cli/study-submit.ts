/** `study submit`: hands a study's folder to a queue, or writes what a cluster is given. */
import { resolve } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import { openStudy, type StudyFolder } from "../study/study-folder.ts";
import { submitParallel, submitSlurm, writeKubernetes } from "../study/submit.ts";
import { type CommandHost, optionText } from "./cli-command.ts";
import type { Options } from "./study-actions.ts";

/** This program as a shell calls it: packaged, it is one file; else its script under this Node. */
const calling = (): readonly string[] => {
  const [, script = ""] = process.argv;
  return script === "" || script.startsWith("-") ? [process.execPath] : [process.execPath, resolve(script)];
};

const onCluster = (study: StudyFolder, image: string, options: Options) => {
  const claim = optionText(options, "claim");
  if (claim === undefined)
    throw new PlanningError(
      "invalid input",
      "Name the persistent volume claim that holds the study's folder: --claim NAME.",
      "--claim",
    );
  const done = writeKubernetes(study, image, claim);
  const [shards = "", merge = ""] = done.scripts;
  return {
    holds: true,
    json: { folder: study.folder, ...done },
    text: [
      "Two jobs are written; nothing is started. They are checked against the published schema alone, not on a cluster.",
      `With the folder on the claim ${claim}: kubectl apply -f ${shards}`,
      `When that job has ended: kubectl apply -f ${merge}`,
    ].join("\n"),
  };
};

export const submitAction = (_host: CommandHost, [folder = ""]: readonly string[], options: Options) => {
  const hosts = options["parallel"];
  const image = optionText(options, "kubernetes");
  const ways = [options["slurm"] === true, hosts !== undefined, image !== undefined].filter(Boolean);
  if (ways.length !== 1)
    throw new PlanningError(
      "invalid input",
      "Say one of --slurm, --parallel [hosts] and --kubernetes IMAGE.",
      "--slurm",
    );
  const study = openStudy(resolve(folder));
  if (image !== undefined) return Promise.resolve(onCluster(study, image, options));
  const done =
    hosts === undefined
      ? submitSlurm(study, calling())
      : submitParallel(study, calling(), typeof hosts === "string" ? hosts : null);
  const shards = done.open === "" ? "No shard was open" : `Shards ${done.open}`;
  return Promise.resolve({
    holds: done.isMerged ?? true,
    json: { folder: study.folder, ...done },
    text:
      done.isMerged === null
        ? `${shards}: handed to Slurm as ${done.jobs.length === 1 ? "job" : "jobs"} ${done.jobs.join(" and ")}. See what is done: study status ${folder}`
        : `${shards}: ${done.isMerged ? "computed and merged" : "not all computed"}. See: study status ${folder}`,
  });
};
