/**
 * A study as two jobs of Kubernetes: one with a task for each shard, one that merges. Text alone, checked against the types
 * of the published schema (batch/v1); nothing here was run on a cluster.
 */
import type { Job } from "kubernetes-types/batch/v1";
import type { PodSpec } from "kubernetes-types/core/v1";

export interface OnCluster {
  /** What both are called: letters, digits and hyphens. */
  readonly name: string;
  /** A container image in which `coldstock` is the command line. */
  readonly image: string;
  /** The persistent volume claim that holds the study's folder. */
  readonly claim: string;
  readonly shards: number;
}

/** Where the folder lies inside a container. */
const PLACE = "/study";
/** Tries of one shard by the cluster. */
const TRIES = 3;
/** Exit status for bad input: it would be bad the next time, too. */
const BAD_INPUT = 2;
const CONTAINER = "study";

const podOf = ({ image, claim }: OnCluster, words: readonly string[]): PodSpec => ({
  restartPolicy: "Never",
  containers: [
    {
      name: CONTAINER,
      image,
      command: ["coldstock"],
      args: ["study", ...words, PLACE],
      volumeMounts: [{ name: "folder", mountPath: PLACE }],
    },
  ],
  volumes: [{ name: "folder", persistentVolumeClaim: { claimName: claim } }],
});

/**
 * A task for every shard: the cluster numbers them, and `study run` takes the number (JOB_COMPLETION_INDEX). One whose shard
 * is whole already ends at once. Three tries each; bad input ends the whole job.
 */
export const shardsJob = (study: OnCluster): Job => ({
  apiVersion: "batch/v1",
  kind: "Job",
  metadata: { name: `${study.name}-shards` },
  spec: {
    completionMode: "Indexed",
    completions: study.shards,
    parallelism: study.shards,
    backoffLimitPerIndex: TRIES - 1,
    podFailurePolicy: {
      rules: [
        { action: "FailJob", onExitCodes: { containerName: CONTAINER, operator: "In", values: [BAD_INPUT] } },
        // A node that goes down is no fault of the shard's.
        { action: "Ignore", onPodConditions: [{ type: "DisruptionTarget", status: "True" }] },
      ],
    },
    template: { spec: podOf(study, ["run"]) },
  },
});

/** To be handed over when the first has ended: it looks at the files, and fails naming what is missing. */
export const mergeJob = (study: OnCluster): Job => ({
  apiVersion: "batch/v1",
  kind: "Job",
  metadata: { name: `${study.name}-merge` },
  spec: { completions: 1, backoffLimit: 0, template: { spec: podOf(study, ["merge"]) } },
});
