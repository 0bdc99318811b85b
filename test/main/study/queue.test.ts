/**
 * A study handed to real queues: Slurm on this machine with four nodes, and GNU parallel. Tasks that fail once, a node set
 * down under its tasks, shards lost and damaged, changed inputs: the merge's bytes are those of one local run.
 */
import { spawnSync } from "node:child_process";
import { appendFileSync, chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { parseStudy } from "../../../app/study/resolve.ts";
import { prepareStudy } from "../../../app/study/study.ts";
import { inlineRunner } from "../../../main/service/work/runner.ts";
import { mergeStudy } from "../../../main/study/merge.ts";
import { runShards } from "../../../main/study/run-shards.ts";
import { shardPath, standingOf } from "../../../main/study/shard-file.ts";
import { openStudy, planStudy } from "../../../main/study/study-folder.ts";
import { client } from "../../suite/clients.ts";
import { carries, flight, lossPeriod, smallPlan, sortie, tank } from "../../app/forecast/small-plan.ts";
import { startSlurm, until } from "./slurm-site.ts";

const plan = smallPlan({
  tanks: [tank("a", { maximumFillKg: 40_000, reserveKg: 1000 })],
  opening: { a: 20_000 },
  tanker: [carries({ capacityKg: 12_000 })],
  flights: [flight("f1", 5, 10, 10_000), flight("f2", 25, 30, 10_000)],
  sorties: [sortie("s1", 20, 15_000), sortie("s2", 40, 15_000)],
  lossPeriods: [lossPeriod("base", "a", 0.001, 50)],
  horizonDay: 60,
});
const asked = parseStudy({
  name: "Losses",
  inputs: [{ quantity: "loss factor", values: { kind: "range", from: 0, to: 4, count: 40 } }],
  design: { kind: "grid" },
  ask: [{ kind: "supply" }],
});
const base = { plan, readings: [], asked };
const SHARDS = 8;

let root = "";
let local = "";
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), "coldstock-queue-"));
  const place = join(root, "local");
  planStudy(place, base, prepareStudy(base), 3);
  const running = { runner: inlineRunner(), signal: new AbortController().signal, progress: () => undefined };
  await runShards(place, null, running);
  local = (await mergeStudy(openStudy(place))).digest ?? "";
});
afterAll(() => rmSync(root, { recursive: true, force: true, maxRetries: 5 }));

const planned = (name: string, shards = SHARDS): string =>
  planStudy(join(root, name), base, prepareStudy(base), shards).folder;

/** Every task starts the program from its sources: what one has compiled the others find. */
const quick = (environment: NodeJS.ProcessEnv): NodeJS.ProcessEnv => ({
  ...environment,
  NODE_COMPILE_CACHE: join(root, "compiled"),
});

/** The command line, in front of which a task fails the first time where a file says so. */
const program = resolve(import.meta.dirname, "../../../main/cli/main.ts");
const failingOnce = (shard: number): string => {
  const path = join(root, `program-${shard}.sh`);
  writeFileSync(
    path,
    `#!/bin/sh
# Nothing runs on before the gate is open: what is done to a node meanwhile is done under its task.
while [ -n "\${STUDY_GATE:-}" ] && [ ! -e "$STUDY_GATE" ]; do sleep 0.1; done
# Dies once in the middle of one task, as a machine does that goes down.
case "\${SLURM_ARRAY_TASK_ID:-} $*" in
  "${shard} "*|*"--shard ${shard}")
    if mkdir "$0.died" 2>/dev/null; then kill -9 $$; fi ;;
esac
exec '${process.execPath}' '${program}' "$@"
`,
  );
  chmodSync(path, 0o755);
  return path;
};

const submit = (caller: string, folder: string, environment: NodeJS.ProcessEnv, ...words: readonly string[]) =>
  spawnSync(process.execPath, [caller, "study", "submit", folder, ...words], {
    env: quick(environment),
    encoding: "utf8",
  });

/** The command line whose own name is another: what a queue then calls is the failing one. */
const callerOf = (failing: string): string => {
  const path = `${failing}.mjs`;
  writeFileSync(
    path,
    `process.argv[1] = ${JSON.stringify(failing)};\nObject.defineProperty(process, "execPath", { value: "/bin/sh" });\nawait import(${JSON.stringify(program)});\n`,
  );
  return path;
};

const isDone = (folder: string): string | true => {
  const path = join(folder, "log", "merge.log");
  const text = existsSync(path) ? readFileSync(path, "utf8") : "";
  return text.includes("SHA-256") || text.includes("Not merged") || `no merge yet: ${text}`;
};

test(
  "Slurm: a task that dies, a node set down, a shard lost and one damaged: the bytes of a local run",
  { ...client("slurmctld", "slurmd", "slurm-client", "munge"), timeout: 240_000 },
  async () => {
    const site = mkdtempSync(join(tmpdir(), "coldstock-slurm-"));
    const slurm = await startSlurm(site);
    try {
      const folder = planned("slurm");
      const caller = callerOf(failingOnce(3));
      const gate = join(site, "gate");
      const first = submit(caller, folder, { ...slurm.environment, STUDY_GATE: gate }, "--slurm");
      expect({ status: first.status, err: first.stderr }).toMatchObject({ status: 0 });
      expect(first.stdout).toMatch(/Shards 0-7: handed to Slurm as jobs \d+ and \d+/);
      const [, array = ""] = /jobs (\d+) and/.exec(first.stdout) ?? [];
      // One node goes down under its task, for good: another node gets the task.
      let task = "";
      await until(() => {
        task = slurm.ask("squeue", "-h", "-t", "R", "-w", "n2", "-o", "%K");
        return task !== "" || "nothing runs on n2";
      }, 30_000);
      slurm.ask("scontrol", "update", "NodeName=n2", "State=DOWN", "Reason=test");
      writeFileSync(gate, "");
      await until(() => isDone(folder), 100_000);
      expect(slurm.ask("scontrol", "show", "job", `${array}_${task}`)).toContain("Restarts=1");
      expect(readFileSync(join(folder, "log", "shard-3.log"), "utf8")).toContain("try 1 ended with 137; once more");
      const study = openStudy(folder);
      expect(standingOf(study).open).toEqual([]);
      expect((await mergeStudy(study)).digest).toBe(local);

      // What is lost or damaged is found, and it alone is handed over.
      rmSync(shardPath(folder, 2));
      appendFileSync(shardPath(folder, 5), "[1,2]\n");
      rmSync(join(folder, "log", "merge.log"));
      const again = submit(caller, folder, slurm.environment, "--slurm");
      expect(again.stdout).toMatch(/Shards 2,5: handed to Slurm/);
      await until(() => isDone(folder), 60_000);
      expect((await mergeStudy(study)).digest).toBe(local);

      // Changed inputs are refused before anything is handed over.
      appendFileSync(join(folder, "inputs.json"), " ");
      const changed = submit(caller, folder, slurm.environment, "--slurm");
      expect(changed.status).toBe(2);
      expect(changed.stderr).toMatch(/not what the study was planned with/);
      expect(slurm.ask("squeue", "-h")).toBe("");
    } finally {
      await slurm.stop();
      rmSync(site, { recursive: true, force: true, maxRetries: 5 });
    }
  },
);

test(
  "GNU parallel: a task that dies is tried again, and the merge is that of a local run",
  { ...client("parallel"), timeout: 240_000 },
  async () => {
    const folder = planned("parallel", 3);
    const done = submit(callerOf(failingOnce(1)), folder, process.env, "--parallel");
    expect({ status: done.status, err: done.stderr }).toMatchObject({ status: 0 });
    expect(done.stdout).toMatch(/Shards 0-2: computed and merged/);
    expect((await mergeStudy(openStudy(folder))).digest).toBe(local);
  },
);

test("without the queue it is said, and the scripts are there", () => {
  const folder = planned("none");
  const done = submit(program, folder, { ...process.env, PATH: "/nonexistent" }, "--slurm");
  expect(done.status).toBe(2);
  expect(done.stderr).toMatch(/sbatch is not installed here\. The scripts are written/);
  expect(readFileSync(join(folder, "submit", "slurm-shards.sh"), "utf8")).toContain("#SBATCH --requeue");
});
