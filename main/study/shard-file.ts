/**
 * A shard: a head line, a line for each point, and a last line with the SHA-256 of all before it. What is missing, cut,
 * changed or of another study is open, and is computed anew.
 */
import { createHash, type Hash } from "node:crypto";
import { closeSync, existsSync, openSync, readSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { beginWhole } from "./write-whole.ts";
import { pointsOf, shardsPath, type StudyFolder } from "./study-folder.ts";

/** What may not differ between the shards of one merge: logarithms are not promised to agree to the bit across these. */
export interface Maker {
  readonly engine: string;
  readonly processor: string;
}

export const thisMaker = (): Maker => ({
  engine: `v8 ${process.versions.v8.split("-")[0] ?? ""}`,
  processor: `${process.arch} ${(cpus()[0]?.model ?? "unknown").split(/[\s(]/)[0] ?? ""}`.trim(),
});

export const shardPath = (folder: string, n: number): string =>
  join(shardsPath(folder), `${String(n).padStart(6, "0")}.jsonl`);

const headOf = (study: StudyFolder, n: number, maker: Maker): string =>
  `${JSON.stringify({ study: study.identity, shard: n, ...pointsOf(study.plan, n), ...maker })}\n`;

export interface ShardWriter {
  /** Lines of points, in their order. */
  write(lines: string): void;
  keep(): void;
  drop(): void;
}

export const beginShard = (study: StudyFolder, n: number, maker: Maker = thisMaker()): ShardWriter => {
  const file = beginWhole(shardPath(study.folder, n));
  const hash = createHash("sha256");
  const write = (text: string): void => {
    hash.update(text);
    file.write(text);
  };
  write(headOf(study, n, maker));
  return {
    write,
    keep: () => {
      file.write(`${JSON.stringify({ sha256: hash.digest("hex") })}\n`);
      file.keep();
    },
    drop: () => file.drop(),
  };
};

export type ShardState =
  | { readonly is: "whole"; readonly maker: Maker }
  | { readonly is: "missing" }
  | { readonly is: "damaged" | "foreign"; readonly why: string };

const PIECE = 1 << 16;

/** The lines of a file, each with its end, without holding the file. */
function* linesOf(path: string): Generator<string, void> {
  const handle = openSync(path, "r");
  try {
    const piece = Buffer.alloc(PIECE);
    let rest = Buffer.alloc(0);
    for (let count = readSync(handle, piece); count > 0; count = readSync(handle, piece)) {
      rest = Buffer.concat([rest, piece.subarray(0, count)]);
      let from = 0;
      for (let end = rest.indexOf(10); end >= 0; end = rest.indexOf(10, from)) {
        yield rest.toString("utf8", from, end + 1);
        from = end + 1;
      }
      rest = rest.subarray(from);
    }
    if (rest.length > 0) yield rest.toString("utf8");
  } finally {
    closeSync(handle);
  }
}

const headIn = (line: string): (Maker & { readonly study: string; readonly shard: number }) | null => {
  try {
    const read: unknown = JSON.parse(line);
    const { study, shard, engine, processor } = read as Record<string, unknown>;
    return typeof study === "string" && typeof engine === "string" && typeof processor === "string"
      ? { study, shard: Number(shard), engine, processor }
      : null;
  } catch {
    return null;
  }
};

const damaged = (why: string): ShardState => ({ is: "damaged", why });

/** Reads a shard through and says what it is; `onLines` hears the lines of its points. */
export const readShard = (
  study: StudyFolder,
  n: number,
  onLine: (line: string) => void = () => undefined,
): ShardState => {
  const path = shardPath(study.folder, n);
  if (!existsSync(path)) return { is: "missing" };
  const hash: Hash = createHash("sha256");
  let maker: Maker | null = null;
  let before: string | null = null;
  let points = 0;
  for (const line of linesOf(path)) {
    if (maker === null) {
      const head = headIn(line);
      if (head === null) return damaged("its first line cannot be read");
      if (head.study !== study.identity || head.shard !== n)
        return { is: "foreign", why: "it belongs to another study, or to another cut of this one" };
      maker = { engine: head.engine, processor: head.processor };
      hash.update(line);
      continue;
    }
    // The last line is known to be it only when no other follows.
    if (before !== null) {
      hash.update(before);
      onLine(before);
      points += 1;
    }
    before = line;
  }
  if (maker === null || before === null) return damaged("it is cut off");
  const { from, until } = pointsOf(study.plan, n);
  if (before !== `${JSON.stringify({ sha256: hash.digest("hex") })}\n`)
    return damaged("its digest is not that of what is in it");
  if (points !== until - from) return damaged(`it has ${points} points of ${until - from}`);
  return { is: "whole", maker };
};

/** "2,5-7": as queues take the numbers of an array. */
export const arrayRange = (numbers: readonly number[]): string => {
  const runs: [number, number][] = [];
  for (const n of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === n - 1) last[1] = n;
    else runs.push([n, n]);
  }
  return runs.map(([from, to]) => (from === to ? String(from) : `${from}-${to}`)).join(",");
};

export interface StudyStanding {
  readonly open: readonly number[];
  /** Of those, the ones of which something is there that does not count. */
  readonly spoiled: readonly { readonly shard: number; readonly why: string }[];
}

/** Which shards are still to be computed. */
export const standingOf = (study: StudyFolder): StudyStanding => {
  const open: number[] = [];
  const spoiled: { shard: number; why: string }[] = [];
  for (let n = 0; n < study.plan.shards; n += 1) {
    const state = readShard(study, n);
    if (state.is === "whole") continue;
    open.push(n);
    if (state.is !== "missing") spoiled.push({ shard: n, why: state.why });
  }
  return { open, spoiled };
};
