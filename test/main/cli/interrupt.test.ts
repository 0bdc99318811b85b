/** Ctrl+C in a real process: a run of the risk that is interrupted leaves the answer of the runs so far, on stdout and whole. */
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { RiskAnswer } from "../../../app/risk/answer.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { commandLineProgram } from "../../suite/programs.ts";
import { run } from "./terminal.ts";

let folder: string;
let ledger: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-interrupt-"));
  ledger = join(folder, "tarn.coldstock");
  loadDocument(ledger, demoTarn()).close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("SIGINT ends a long run with a valid answer of fewer runs, which says so; status 1", async () => {
  const child = spawn(process.execPath, [commandLineProgram, "risk", ledger, "--runs", "10000000", "--json"]);
  const text = { out: "", err: "" };
  let isInterrupted = false;
  child.stdout.on("data", (part: Buffer) => (text.out += part.toString()));
  child.stderr.on("data", (part: Buffer) => {
    text.err += part.toString();
    // Runs are under way: the person has seen enough.
    if (isInterrupted || !text.err.includes("Running the plan")) return;
    isInterrupted = true;
    setTimeout(() => child.kill("SIGINT"), 500);
  });
  const ended = await new Promise<{ status: number | null; signal: string | null }>((resolve) =>
    child.once("close", (status, signal) => resolve({ status, signal })),
  );
  // It ended by itself, not by the signal.
  expect(ended).toEqual({ status: 1, signal: null });
  const stopped = JSON.parse(text.out) as RiskAnswer;
  expect(stopped.end).toBe("stopped");
  expect(stopped.replications).toBeGreaterThan(0);
  expect(stopped.replications).toBeLessThan(10_000_000);
  // The same number asked for is the same answer, but for how it ended: nothing was counted by half.
  const asked = JSON.parse((await run("risk", ledger, "--runs", String(stopped.replications), "--json")).out) as object;
  expect({ ...asked, end: "stopped" }).toEqual(stopped);
});
