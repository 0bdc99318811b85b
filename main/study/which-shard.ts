/** Which shard a queue means: by the number that it gives each task of an array. */
import { PlanningError } from "../../app/ground/failure.ts";

/** What queues call it, and the number of their first task. Only Slurm's was tried with the queue itself. */
const NUMBERS: readonly { readonly name: string; readonly first: number }[] = [
  { name: "SLURM_ARRAY_TASK_ID", first: 0 },
  { name: "JOB_COMPLETION_INDEX", first: 0 },
  { name: "PBS_ARRAY_INDEX", first: 0 },
  { name: "SGE_TASK_ID", first: 1 },
  { name: "LSB_JOBINDEX", first: 1 },
  { name: "AWS_BATCH_JOB_ARRAY_INDEX", first: 0 },
];

/** A shard's number as a person or a queue writes it. Throws "invalid input" unless it is one of the study's. */
export const shardNumber = (text: string, shards: number, field: string, first = 0): number => {
  const n = /^\d{1,7}$/.test(text) ? Number(text) - first : Number.NaN;
  if (n >= 0 && n < shards) return n;
  throw new PlanningError(
    "invalid input",
    `This study has the shards ${first} to ${shards - 1 + first}; ${text} is none of them.`,
    field,
  );
};

/** null: no queue says. Throws "invalid input" where two do. */
export const shardOfQueue = (environment: NodeJS.ProcessEnv, shards: number): number | null => {
  const given = NUMBERS.flatMap(({ name, first }) => {
    const text = environment[name];
    // Outside an array some queues say "undefined".
    return text === undefined || text === "" || text === "undefined" ? [] : [{ name, first, text }];
  });
  const [one, other] = given;
  if (one === undefined) return null;
  if (other !== undefined)
    throw new PlanningError(
      "invalid input",
      `Both ${one.name} and ${other.name} are set: say which shard is meant with --shard.`,
      "--shard",
    );
  return shardNumber(one.text, shards, one.name, one.first);
};
