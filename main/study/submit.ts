/** Hands what is open of a study to a queue: writes the scripts into the folder, and starts them where it can. */
import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import { mergeJob, shardsJob } from "./kubernetes-jobs.ts";
import { type Calling, parallelScript, slurmMerge, slurmShards } from "./queue-scripts.ts";
import { arrayRange, standingOf } from "./shard-file.ts";
import { readInputs, type StudyFolder } from "./study-folder.ts";
import { writeWhole } from "./write-whole.ts";

export interface Submitted {
  /** Shards that were handed over, as an array range; "": none were open, only the merge was. */
  readonly open: string;
  readonly scripts: readonly string[];
  /** Numbers of the queue's jobs; none: it ran here and has ended, or is only written. */
  readonly jobs: readonly string[];
  /** How the merge ended, where it ran here; null: it is the queue's or the cluster's. */
  readonly isMerged: boolean | null;
}

const MINUTE_MS = 60_000;

/** Runs a program of the queue and gives what it prints. Throws "refused" where it is missing or says no. */
const asked = (program: string, words: readonly string[], limitMs: number | undefined): string => {
  const { status, error, stdout, stderr } = spawnSync(program, words, { encoding: "utf8", timeout: limitMs });
  if (error !== undefined)
    throw new PlanningError(
      "refused",
      (error as NodeJS.ErrnoException).code === "ENOENT"
        ? `${program} is not installed here. The scripts are written: start them where it is.`
        : `${program} could not be run: ${error.message}. The scripts are written.`,
      "queue",
    );
  if (status !== 0)
    throw new PlanningError("refused", `${program} refused the job: ${(stderr || stdout).trim()}`, "queue");
  return stdout.trim();
};

const written = (study: StudyFolder, name: string, text: string): string => {
  mkdirSync(join(study.folder, "submit"), { recursive: true });
  mkdirSync(join(study.folder, "log"), { recursive: true });
  const path = join(study.folder, "submit", name);
  writeWhole(path, [text]);
  return path;
};

/** The number of a job as `sbatch --parsable` says it: "17" or "17;cluster". */
const jobOf = (text: string): string => text.split(";")[0] ?? text;

/** An array job over what is open, and a merge after it however it ends. Throws "refused" in words. */
export const submitSlurm = (study: StudyFolder, calling: Calling): Submitted => {
  // Changed inputs are said now, and not by a hundred tasks.
  readInputs(study);
  const open = arrayRange(standingOf(study).open);
  const shards = written(study, "slurm-shards.sh", slurmShards(study.folder, calling));
  const merge = written(study, "slurm-merge.sh", slurmMerge(study.folder, calling));
  const array = open === "" ? null : jobOf(asked("sbatch", ["--parsable", `--array=${open}`, shards], MINUTE_MS));
  const after = array === null ? [] : [`--dependency=afterany:${array}`];
  const last = jobOf(asked("sbatch", ["--parsable", ...after, merge], MINUTE_MS));
  return { open, scripts: [shards, merge], jobs: array === null ? [last] : [array, last], isMerged: null };
};

/** Runs what is open over these hosts (null: this machine) and merges; comes back when it has ended. */
export const submitParallel = (study: StudyFolder, calling: Calling, hosts: string | null): Submitted => {
  readInputs(study);
  const { open } = standingOf(study);
  const script = written(study, "parallel.sh", parallelScript(study.folder, calling, open, hosts));
  asked("parallel", ["--version"], MINUTE_MS);
  const { status } = spawnSync("sh", [script], { stdio: ["ignore", "ignore", "inherit"] });
  return { open: arrayRange(open), scripts: [script], jobs: [], isMerged: status === 0 };
};

/** A name that a cluster takes: lower case, begins and ends with a letter or a figure. */
const CLUSTER_NAME = /^[a-z0-9]([-a-z0-9.]{0,251}[a-z0-9])?$/;

/**
 * Writes the two jobs of a cluster; nothing is started. `image`: a container image with `coldstock` in it; `claim`: the
 * persistent volume claim that holds the folder. Throws "invalid input" in words.
 */
export const writeKubernetes = (study: StudyFolder, image: string, claim: string): Submitted => {
  readInputs(study);
  if (!/^\S+$/.test(image)) throw new PlanningError("invalid input", "Name the container image.", "--kubernetes");
  if (!CLUSTER_NAME.test(claim))
    throw new PlanningError(
      "invalid input",
      `A persistent volume claim cannot be called "${claim}": lower-case letters, figures, hyphens and dots.`,
      "--claim",
    );
  const { shards } = study.plan;
  const job = { name: `study-${study.identity.slice(0, 12)}`, image, claim, shards };
  const text = (what: object): string => `${JSON.stringify(what, null, 2)}\n`;
  const scripts = [
    written(study, "kubernetes-shards.json", text(shardsJob(job))),
    written(study, "kubernetes-merge.json", text(mergeJob(job))),
  ];
  return { open: arrayRange(standingOf(study).open), scripts, jobs: [], isMerged: null };
};
