/** The merge: all points in their order in one file that names neither shards, engine nor time. */
import { createHash } from "node:crypto";
import { createReadStream, existsSync } from "node:fs";
import { PlanningError } from "../../app/ground/failure.ts";
import { arrayRange, type Maker, readShard, standingOf } from "./shard-file.ts";
import { questionOf, resultPath, type StudyFolder } from "./study-folder.ts";
import { beginWhole } from "./write-whole.ts";

export interface Merged {
  readonly isWhole: boolean;
  /** Shards that are still to be computed, as an array range; "": none. */
  readonly open: string;
  readonly spoiled: readonly { readonly shard: number; readonly why: string }[];
  readonly points: number;
  /** SHA-256 of result.json; null: there is none yet. */
  readonly digest: string | null;
  readonly path: string;
}

/** SHA-256 of a file, without holding it. */
export const digestOf = async (path: string): Promise<string> => {
  const hash = createHash("sha256");
  for await (const part of createReadStream(path)) hash.update(part as Buffer);
  return hash.digest("hex");
};

const refuseMixed = (n: number, first: Maker | null, maker: Maker): void => {
  if (first === null || (first.engine === maker.engine && first.processor === maker.processor)) return;
  throw new PlanningError(
    "refused",
    `Shard ${n} was computed by ${maker.engine} on ${maker.processor}, others by ${first.engine} on ${first.processor}. Their numbers need not agree to the last bit: delete the shards of one of the two, and run them anew on the other.`,
    "folder",
  );
};

/** Throws "refused" where shards do not go together, or where a result stands that differs; "storage". */
export const mergeStudy = async (study: StudyFolder): Promise<Merged> => {
  const { plan, folder } = study;
  const path = resultPath(folder);
  const { open, spoiled } = standingOf(study);
  const standing = { open: arrayRange(open), spoiled, points: plan.points, path };
  if (open.length > 0) return { ...standing, isWhole: false, digest: existsSync(path) ? await digestOf(path) : null };
  const file = beginWhole(path);
  const hash = createHash("sha256");
  const write = (text: string): void => {
    hash.update(text);
    file.write(text);
  };
  try {
    const head = {
      format: "coldstock-study-result",
      version: 1,
      question: questionOf(plan),
      planCase: plan.planCase,
      asked: plan.asked,
      columns: plan.columns,
    };
    write(`{"head":${JSON.stringify(head)},\n"rows":[\n`);
    let first: Maker | null = null;
    let written = 0;
    let lines: string[] = [];
    const flush = (): void => {
      write(lines.join(""));
      lines = [];
    };
    for (let n = 0; n < plan.shards; n += 1) {
      const state = readShard(study, n, (line) => {
        written += 1;
        lines.push(written === plan.points ? line : `${line.slice(0, -1)},\n`);
        if (lines.length >= 1000) flush();
      });
      if (state.is !== "whole")
        throw new PlanningError("refused", `Shard ${n} changed while it was merged. Merge again.`, "folder");
      refuseMixed(n, first, state.maker);
      first ??= state.maker;
    }
    flush();
    write("]}\n");
    const digest = hash.digest("hex");
    if (existsSync(path) && (await digestOf(path)) !== digest)
      throw new PlanningError(
        "refused",
        "A result stands in this folder that differs from what these shards give. It was left as it is: look which of the two is right, and move it away before merging again.",
        "folder",
      );
    file.keep();
    return { ...standing, isWhole: true, digest };
  } finally {
    file.drop();
  }
};
