/** `study` on the command line: what a tired person may type, the whole way to a result, and Ctrl+C in a real process. */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { nodeWithSmallFiles } from "../../crash/constrained-node.ts";
import { commandLineProgram } from "../../suite/programs.ts";
import { run } from "./terminal.ts";

let folder = "";
let ledger = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-study-cli-"));
  ledger = join(folder, "tarn.coldstock");
  loadDocument(ledger, demoTarn()).close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string): string => join(folder, name);
const write = (name: string, study: object): string => {
  writeFileSync(
    at(name),
    JSON.stringify({ name: "A study", design: { kind: "grid" }, ask: [{ kind: "supply" }], ...study }),
  );
  return at(name);
};
const factor = (count: number, to = 3) => ({ quantity: "loss factor", values: { kind: "range", from: 0, to, count } });

test("a million points by mistake are asked about with the time they would take, and nothing is written", async () => {
  const path = write("large.json", {
    inputs: [factor(1000), { quantity: "flight delay", values: { kind: "range", from: 0, to: 90, count: 1000 } }],
  });
  const { status, err } = await run("study", "plan", ledger, path, at("large"));
  expect(status).toBe(2);
  expect(err).toMatch(/1,000,000 points: about \d+ (s|min|h|days) on the \d+ cores/);
  expect(err).toMatch(/Nothing was written.*--yes/);
  expect(existsSync(at("large"))).toBe(false);
});

test("an input that the plan does not have, an empty range, a wrong path: said, status 2, nothing written", async () => {
  const say = async (study: object): Promise<string> => {
    const { status, err } = await run("study", "plan", ledger, write("bad.json", study), at("bad"));
    expect(status).toBe(2);
    expect(existsSync(at("bad"))).toBe(false);
    return err;
  };
  expect(
    await say({ inputs: [{ quantity: "reserve", tank: "Tarn methane", values: { kind: "list", list: [1] } }] }),
  ).toMatch(/no depot tank Tarn methane. It has: Tarn hydrazine, Tarn hydrogen, Tarn oxygen/);
  expect(await say({ inputs: [factor(3, -1)] })).toMatch(/is empty: it goes from 0 to -1/);
  expect(await say({ inputs: [{ quantity: "weather", values: { kind: "list", list: [1] } }] })).toMatch(
    /cannot vary “weather”/,
  );
  expect(await say({ case: "Nobody's", inputs: [factor(3)] })).toMatch(/no plan case "Nobody's"/);
  expect((await run("study", "run", folder)).err).toMatch(/not the folder of a study/);
  expect((await run("study", "run", ledger)).err).toMatch(/is a ledger; the folder of a study belongs here/);
  expect((await run("study", "fly", folder)).err).toMatch(/study fly is none of: sample, plan/);
  expect((await run("study", "plan", ledger)).err).toMatch(/study plan takes 3 paths: LEDGER STUDY.json FOLDER/);
  writeFileSync(at("torn.json"), "{");
  expect((await run("study", "plan", ledger, at("torn.json"), at("bad"))).err).toMatch(/is not JSON/);
});

test("planned, run, merged; what matters is ranked, and a map needs a grid", async () => {
  const path = write("rank.json", {
    inputs: [
      { quantity: "loss factor", values: { kind: "log-normal", median: 1, sigma: 0.3 } },
      { quantity: "reserve", tank: "Tarn hydrazine", values: { kind: "range", from: 1000, to: 1001 } },
    ],
    design: { kind: "what matters", base: 64 },
  });
  const planned = await run("study", "plan", ledger, path, at("rank"), "--shards", "4", "--json");
  if (planned.status !== 0) expect(planned.err).toBe("");
  expect((await run("study", "status", at("rank"))).status).toBe(1);
  expect((await run("study", "merge", at("rank"))).status).toBe(1);
  expect((await run("study", "map", at("rank"), at("rank.svg"))).err).toMatch(/has no result yet/);
  expect(JSON.parse((await run("study", "run", at("rank"), "--shard", "2", "--json")).out)).toMatchObject({
    computed: 1,
  });
  expect(JSON.parse((await run("study", "run", at("rank"), "--json")).out)).toMatchObject({
    computed: 3,
    found: 1,
    open: "",
  });
  expect((await run("study", "status", at("rank"))).status).toBe(0);
  expect((await run("study", "merge", at("rank"))).status).toBe(0);
  const ranked = JSON.parse((await run("study", "rank", at("rank"), "--json")).out) as {
    inputs: { input: number; total: number }[];
  };
  expect(ranked.inputs[0]).toMatchObject({ input: 0 });
  expect(ranked.inputs[0]?.total).toBeGreaterThan(0.9);
  expect((await run("study", "rank", at("rank"), "--of", "Sortie 2: status")).err).toMatch(/is a word, not a number/);
  expect((await run("study", "map", at("rank"), at("rank.svg"))).err).toMatch(/drawn from a grid/);
});

test("Ctrl+C leaves whole shards and nothing else, and the same command goes on", { timeout: 60_000 }, async () => {
  const path = write("long.json", { inputs: [factor(300)], ask: [{ kind: "risk", runs: 1024 }] });
  await run("study", "plan", ledger, path, at("long"), "--shards", "100", "--yes");
  const child = spawn(process.execPath, [commandLineProgram, "study", "run", at("long"), "--json"]);
  let out = "";
  child.stdout.on("data", (part: Buffer) => (out += part.toString()));
  let isInterrupted = false;
  const looking = setInterval(() => {
    const whole = readdirSync(at("long/shards")).filter((name) => !name.startsWith("."));
    if (isInterrupted || whole.length < 2) return;
    isInterrupted = true;
    child.kill("SIGINT");
  }, 20);
  const ended = await new Promise((resolve) => child.once("close", (status, signal) => resolve({ status, signal })));
  clearInterval(looking);
  expect(ended).toEqual({ status: 1, signal: null });
  const stopped = JSON.parse(out) as { isStopped: boolean; computed: number; open: string };
  expect(stopped.isStopped).toBe(true);
  expect(readdirSync(at("long/shards"))).toHaveLength(stopped.computed);
  expect(JSON.parse((await run("study", "status", at("long"), "--json")).out)).toMatchObject({
    open: stopped.open,
    spoiled: [],
  });
});

test("a full disk in mid-run is said; the shards that are whole stay, and the run goes on when there is room", async () => {
  const path = write("full.json", { inputs: [factor(400)] });
  await run("study", "plan", ledger, path, at("full"), "--shards", "2");
  const { shards } = JSON.parse(readFileSync(at("full/study.json"), "utf8")) as { shards: number };
  expect(shards).toBe(2);
  const child = spawn(nodeWithSmallFiles(folder, 8), [commandLineProgram, "study", "run", at("full")]);
  let err = "";
  child.stderr.on("data", (part: Buffer) => (err += part.toString()));
  const status = await new Promise((resolve) => child.once("close", resolve));
  expect({ status, err }).toMatchObject({ status: 2 });
  expect(err).toMatch(/disk is full.*What is whole stays/);
  expect(readdirSync(at("full/shards"))).toEqual([]);
  expect((await run("study", "run", at("full"))).status).toBe(0);
  expect((await run("study", "merge", at("full"))).status).toBe(0);
});

test("two jobs of a cluster are written: done task by task as they say, they merge to the bytes of a local run", async () => {
  const path = write("cluster.json", { inputs: [factor(12)] });
  for (const name of ["cluster", "here"]) await run("study", "plan", ledger, path, at(name), "--shards", "3");
  await run("study", "run", at("here"));
  const merged = (text: string): string => (JSON.parse(text) as { digest: string }).digest;
  const local = merged((await run("study", "merge", at("here"), "--json")).out);

  const submit = (...words: readonly string[]) => run("study", "submit", at("cluster"), ...words);
  expect((await submit("--kubernetes", "tools:1")).err).toMatch(/Name the persistent volume claim.*--claim/);
  expect((await submit("--kubernetes", "tools:1", "--claim", "Our Disk")).err).toMatch(/cannot be called "Our Disk"/);
  expect((await submit("--kubernetes", "tools:1", "--slurm")).err).toMatch(/Say one of/);
  const { status, out } = await submit("--kubernetes", "tools:1", "--claim", "disk");
  expect(status).toBe(0);
  expect(out).toMatch(/nothing is started.*not on a cluster/);

  interface Written {
    readonly spec: {
      readonly completions: number;
      readonly template: {
        readonly spec: {
          readonly containers: readonly { readonly args: readonly string[]; readonly image: string }[];
        };
      };
    };
  }
  const job = (name: string) => {
    const { spec } = JSON.parse(readFileSync(at(`cluster/submit/kubernetes-${name}.json`), "utf8")) as Written;
    const [container] = spec.template.spec.containers;
    // Inside the container the claim is the folder.
    return {
      tasks: spec.completions,
      words: container?.args.map((word) => (word === "/study" ? at("cluster") : word)),
    };
  };
  const shards = job("shards");
  expect(shards.tasks).toBe(3);
  for (let task = 0; task < shards.tasks; task++) {
    process.env["JOB_COMPLETION_INDEX"] = String(task);
    try {
      expect(await run(...(shards.words ?? []))).toMatchObject({ status: 0 });
    } finally {
      delete process.env["JOB_COMPLETION_INDEX"];
    }
  }
  expect(merged((await run(...(job("merge").words ?? []), "--json")).out)).toBe(local);
});
