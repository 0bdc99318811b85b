/**
 * A study of 10,000 points of the exact forecast over the reference campaign, from the command line as it is built: the
 * whole run on this machine's cores, and what a shard costs beside its points.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const program = fileURLToPath(new URL("../../out/main/cli.js", import.meta.url));
const RUNS = 5;
const POINTS = 10_000;
const SHARDS = 16;

const start = (...words: readonly string[]): { readonly ms: number } => {
  const from = performance.now();
  const { status, stderr } = spawnSync(process.execPath, [program, ...words], { encoding: "utf8" });
  if (status !== 0) throw new Error(`${words.join(" ")}: ${stderr}`);
  return { ms: performance.now() - from };
};

const cli = (...words: readonly string[]): { readonly ms: number } => start("study", ...words);

/** Tells at the end of the process, and of each of its threads, the most memory that the process had. */
const PEAK = `data:text/javascript,${encodeURIComponent('process.on("exit",()=>{process.stderr.write(" peak:"+process.resourceUsage().maxRSS+" ")})')}`;

/** Most memory of a run from the command line, MB. */
const peakOf = (folder: string): number => {
  const { status, stderr } = spawnSync(process.execPath, ["--import", PEAK, program, "study", "run", folder], {
    encoding: "utf8",
  });
  const peaks = [...stderr.matchAll(/ peak:(\d+) /g)].map(([, kilobytes]) => Number(kilobytes));
  if (status !== 0 || peaks.length === 0) throw new Error(`study run: ${stderr}`);
  return Math.max(...peaks) / 1024;
};

const study = (name: string, count: number) => ({
  name,
  inputs: [
    { quantity: "loss factor", values: { kind: "range", from: 0, to: 3, count } },
    {
      quantity: "payload",
      class: "Packhorse",
      propellant: "Hydrogen",
      values: { kind: "range", from: 1, to: 2000, count },
    },
  ],
  design: { kind: "grid" },
  ask: [{ kind: "supply" }],
});

const measure = (folder: string): readonly BenchFigure[] => {
  const ledger = join(folder, "reference.coldstock");
  writeReferenceLedger(ledger);
  const plan = (name: string, count: number, shards: number): string => {
    const path = join(folder, `${name}.json`);
    writeFileSync(path, JSON.stringify(study(name, count)));
    cli("plan", ledger, path, join(folder, name), "--shards", String(shards));
    return join(folder, name);
  };
  const anew = (at: string): void => {
    rmSync(join(at, "result.json"), { force: true });
    for (let n = 0; n < SHARDS; n += 1)
      rmSync(join(at, "shards", `${String(n).padStart(6, "0")}.jsonl`), { force: true });
  };
  const large = plan("large", 100, SHARDS);
  const runs = Array.from({ length: RUNS }, () => {
    anew(large);
    return cli("run", large).ms;
  });
  const merges = Array.from({ length: RUNS }, () => {
    rmSync(join(large, "result.json"), { force: true });
    return cli("merge", large).ms;
  });
  const rows = readFileSync(join(large, "result.json"), "utf8").split("\n").length - 4;
  if (rows !== POINTS) throw new Error(`${rows} points of ${POINTS}`);
  // As many shards of fewer points: what a run holds at a time is a shard of each core, whatever there is in all.
  const tenth = plan("tenth", 32, SHARDS);
  const peaks = (at: string): number =>
    median(
      Array.from({ length: RUNS }, () => {
        anew(at);
        return peakOf(at);
      }),
    );
  const [peakFew, peakMany] = [peaks(tenth), peaks(large)];
  // Two shards of one point each: all but nothing of it is computing.
  const small = plan("small", 2, 4);
  const shards = Array.from({ length: RUNS }, () => {
    anew(small);
    return cli("run", small, "--shard", "1").ms;
  });
  const starts = Array.from({ length: RUNS }, () => start("--help").ms);
  const looks = Array.from({ length: RUNS }, () => cli("status", large).ms);
  return [
    {
      name: `${POINTS} points of the exact forecast on the reference campaign, process and files included`,
      value: median(runs),
      unit: "ms",
      limit: 2000,
    },
    {
      name: "one shard of one point in a process of its own, beside starting the command line",
      value: Math.max(0, median(shards) - median(starts)),
      unit: "ms",
      limit: 150,
    },
    {
      name: `starting the command line and looking through ${SHARDS} shards of ${POINTS} points`,
      value: median(looks),
      unit: "ms",
    },
    { name: "starting the command line for its help", value: median(starts), unit: "ms" },
    { name: "most memory of a run of 1024 points", value: peakFew, unit: "MB" },
    {
      name: `most memory of a run of ${POINTS} points`,
      value: peakMany,
      unit: "MB",
      limit: peakFew * 1.5,
      ratioTo: "most memory of a run of 1024 points",
    },
    { name: `merging ${POINTS} points, process included`, value: median(merges), unit: "ms" },
  ];
};

export const bench: Bench = {
  name: "study",
  run: () => {
    if (!existsSync(program)) throw new BenchUnavailable("The built program is missing: npm run build");
    const folder = mkdtempSync(join(tmpdir(), "coldstock-study-bench-"));
    try {
      return measure(folder);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
