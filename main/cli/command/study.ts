/** `study`: a plan case at many points, planned into a folder, run there by this machine or by many, and merged. */
import { PlanningError } from "../../../app/ground/failure.ts";
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { CliCommand } from "../cli-command.ts";
import {
  edgeAction,
  mapAction,
  mergeAction,
  type Options,
  planAction,
  rankAction,
  refuseLedgerAsFolder,
  refuseMissing,
  runAction,
  sampleAction,
  statusAction,
  takeAction,
} from "../study-actions.ts";
import { submitAction } from "../study-submit.ts";
import type { CommandHost } from "../cli-command.ts";

const paths = {
  sample: ["LEDGER", "STUDY.json"],
  plan: ["LEDGER", "STUDY.json", "FOLDER"],
  run: ["FOLDER"],
  submit: ["FOLDER"],
  status: ["FOLDER"],
  merge: ["FOLDER"],
  map: ["FOLDER", "MAP.svg"],
  take: ["FOLDER", "LEDGER"],
  rank: ["FOLDER"],
  edge: ["LEDGER", "STUDY.json"],
} as const;
type Action = keyof typeof paths;

const isAction = (text: string): text is Action => Object.hasOwn(paths, text);

const perform = async (action: Action, host: CommandHost, given: readonly string[], options: Options) => {
  switch (action) {
    case "sample":
      return await sampleAction(host, given, options);
    case "plan":
      return await planAction(host, given, options);
    case "run":
      return await runAction(host, given, options);
    case "submit":
      return await submitAction(host, given, options);
    case "status":
      return await statusAction(host, given);
    case "merge":
      return await mergeAction(host, given);
    case "take":
      return await takeAction(host, given);
    case "map":
      return await mapAction(host, given, options);
    case "rank":
      return await rankAction(host, given, options);
    case "edge":
      return await edgeAction(host, given, options);
    default:
      return missingCase(action);
  }
};

export const studyCommand = {
  name: "study",
  summary: "Ask a plan case at many points: sample, plan, run, submit, status, merge, take, map, rank, edge",
  examples: [
    { line: "study sample tarn.coldstock study.json", does: "a study to begin from" },
    { line: "study plan tarn.coldstock study.json loss", does: "freeze it into a folder, and say what it costs" },
    { line: "study run loss", does: "compute what is open, on all cores" },
    { line: "study status loss", does: "what is open" },
    { line: "study merge loss", does: "all points in one file, the same bytes whatever the cut" },
    { line: "study take loss tarn.coldstock", does: "keep the result in the ledger" },
    { line: "study map loss map.svg", does: "where the plan stops holding" },
    { line: "study edge tarn.coldstock study.json", does: "up to which value each sortie is supplied" },
  ],
  declare: (command) => {
    command
      .argument("<action>", Object.keys(paths).join(", "))
      .argument(
        "[paths...]",
        Object.entries(paths)
          .map(([action, names]) => `${action} ${names.join(" ")}`)
          .join("; "),
      )
      .option("--shards <number>", "plan: into so many parts (default: 16)")
      .option("--yes", "plan: also where it takes long")
      .option("--shard <number>", "run: this one alone (default: what the queue says, else all that are open)")
      .option("--slurm", "submit: as an array job of Slurm, with a merge after it")
      .option("--parallel [hosts]", "submit: by GNU parallel, here or on these hosts (as its --sshlogin takes them)")
      .option("--kubernetes <image>", "submit: write the two jobs of a cluster, with this container image")
      .option("--claim <name>", "submit --kubernetes: the persistent volume claim that holds the folder")
      .option("--case <name>", "sample: plan case by name or id (default: the first)")
      .option("--sortie <name>", "edge: of this sortie (default: of each)")
      .option("--tolerance <number>", "edge: as near as this, in the unit of the input (default: 0.001)")
      .option("--of <outcome>", "rank: what is to be explained (default: the least margin)")
      .option("--replace", "sample, map: write over what stands there");
  },
  act: async (host, given, options) => {
    const action = given[0] ?? "";
    // The rest of the arguments comes as one list.
    const rest = (given[1] ?? []) as unknown as readonly string[];
    if (!isAction(action))
      throw new PlanningError(
        "invalid input",
        `study ${action} is none of: ${Object.keys(paths).join(", ")}.`,
        "action",
      );
    refuseMissing(rest, paths[action], action);
    if (paths[action][0] !== "LEDGER") refuseLedgerAsFolder(rest[0] ?? "");
    return await perform(action, host, rest, options);
  },
} satisfies CliCommand;
