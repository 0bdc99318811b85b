/**
 * System calls by which an edit, an undo, an import, a merge, a report, a copy or an upload comes onto the disk, and those
 * by which an edit reads, fail once, in turn, in both hosts: "told failed is not done, told done is done", and the ledger
 * is sound. Of each kind of call the first, one of the middle and the last; `COLDSTOCK_FAILING=all` fails every one. Runs
 * under strace; where that cannot watch a process, the test says so by name.
 */
import { spawn, spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { callsProgram } from "../suite/programs.ts";
import { failingArguments } from "./calls/counted-calls.ts";
import { askEdit, makeSmallLedger } from "./edit-stream.ts";
import { startService } from "./service-child.ts";
import type { TrialResult } from "./calls/failing-calls.ts";
import { OLDER, plainlyWritten, readsMuch, trialNames } from "./calls/trial-names.ts";

const root = mkdtempSync(join(tmpdir(), "coldstock-calls-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Whether a process can be watched here: some containers forbid it. */
const canWatch =
  spawnSync("strace", ["-f", "-e", "inject=fsync:error=EIO:when=2+2", "-o", "/dev/null", "true"]).status === 0;

const base = join(root, "base.coldstock");
const olderForm = fileURLToPath(new URL("../db/released/form-140.coldstock", import.meta.url));
beforeAll(async () => {
  copyFileSync(olderForm, join(root, OLDER));
  const service = startService();
  await makeSmallLedger(service, base);
  for (let n = 1; n <= 6; n += 1) {
    const reply = await askEdit(service, n);
    if (reply?.ok !== true) throw new Error(`edit ${n} was refused`);
  }
  await service.close();
});

const failInTurn = async (names: readonly string[], host: string): Promise<readonly TrialResult[]> => {
  const folder = mkdtempSync(join(root, "t-"));
  const isPlain = names.every((name) => plainlyWritten.includes(name));
  const hasReads = !names.some((name) => readsMuch.includes(name));
  const watched = ["-f", "-qq", "--seccomp-bpf", "-o", "/dev/null", ...failingArguments(isPlain, hasReads)];
  const child = spawn("strace", [...watched, process.execPath, callsProgram, folder, base, ...names], {
    env: { ...process.env, COLDSTOCK_CRASH_HOST: host },
  });
  let [out, err] = ["", ""];
  child.stdout.on("data", (text: Buffer) => (out += text.toString()));
  child.stderr.on("data", (text: Buffer) => (err += text.toString()));
  const status = await new Promise<number | null>((resolve) => child.on("close", resolve));
  if (status !== 0) throw new Error(`ended with ${status}: ${err.slice(0, 2000)}`);
  const { kinds, results } = JSON.parse(out) as { kinds: readonly string[]; results: readonly TrialResult[] };
  expect(kinds).toEqual(
    expect.arrayContaining(["pwrite64", "fsync", "fdatasync", "ftruncate", ...(isPlain ? ["write"] : [])]),
  );
  return results;
};

/** What no host takes part in need not be done in both. */
const cases = ["desktop", "browser"].flatMap((host) =>
  trialNames.filter((name) => host === "desktop" || !plainlyWritten.includes(name)).map((name) => ({ host, name })),
);

describe.runIf(canWatch)("each call that writes or reads fails once, under strace", () => {
  it.concurrent.each(cases)("$host: $name", async ({ host, name }) => {
    const [result] = await failInTurn([name], host);
    if (result === undefined) throw new Error("nothing was tried");
    expect(result.faults).toEqual([]);
    // A failing that nobody meets proves nothing.
    expect(result.told.failed).toBeGreaterThan(0);
    expect(Object.keys(result.failed).length).toBeGreaterThan(1);
  });
});
