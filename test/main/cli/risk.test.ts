/** `risk` on the command line: the answer, its error, the same bytes, stopping, bad use. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { RiskAnswer, RiskDifference } from "../../../app/risk/answer.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { runCommandLine } from "../../../main/cli/run.ts";
import { run } from "./terminal.ts";

let folder: string;
let ledger: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-risk-"));
  ledger = join(folder, "tarn.coldstock");
  loadDocument(ledger, demoTarn()).close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Printed = RiskAnswer & { readonly difference: RiskDifference | null };
const json = (text: string): Printed => JSON.parse(text) as Printed;

describe("risk", () => {
  it("says for every sortie how likely it flies, how many inputs are assumed, and what it rests on", async () => {
    const { status, out } = await run("risk", ledger, "--runs", "2048");
    expect(status).toBe(0);
    expect(out).toMatch(/2.048 runs, seed 1/u);
    expect(out).toContain("flies when planned");
    expect(out).toMatch(/assumed\. A probability from assumed inputs is an opinion/);
    for (const { name } of demoTarn().entities.sortie.filter(
      (row) => row.planCaseId === "baseline" && row.status === "planned",
    ))
      expect(out).toContain(name);
  });

  it("gives the same answer to the letter for the same seed, and another for another", async () => {
    const [first, again, other] = [
      await run("risk", ledger, "--runs", "1024", "--json"),
      await run("risk", ledger, "--runs", "1024", "--json"),
      await run("risk", ledger, "--runs", "1024", "--seed", "2", "--json"),
    ];
    expect(again.out).toBe(first.out);
    expect(json(other.out).sorties).not.toEqual(json(first.out).sorties);
  });

  it("runs until the error is reached, or says that it was not", async () => {
    const reached = json((await run("risk", ledger, "--until-error", "0.02", "--json")).out);
    expect(reached.end).toBe("error reached");
    expect(reached.allFlyWhenPlanned.standardError).toBeLessThanOrEqual(0.02);
    const missed = await run("risk", ledger, "--until-error", "0.0001", "--runs", "128", "--json");
    expect(missed.status).toBe(1);
    expect(json(missed.out)).toMatchObject({ end: "number reached", replications: 128 });
  });

  it("compares two cases run by run", async () => {
    const { out } = await run("risk", ledger, "--runs", "1024", "--compare", "extra-packhorse", "--json");
    expect(json(out).difference).toMatchObject({ planCaseIds: ["baseline", "extra-packhorse"], replications: 1024 });
  });

  it("stopped, leaves the answer of the runs so far and says so; its status is 1", async () => {
    let interrupt = (): void => undefined;
    const text = { out: "", err: "" };
    const status = await runCommandLine(["risk", ledger, "--runs", "10000000"], {
      out: (part) => (text.out += part),
      err: (part) => {
        text.err += part;
        // Something runs: now it is stopped.
        if (/Running/.test(part)) setTimeout(interrupt, 1500);
      },
      isScreen: false,
      input: () => Buffer.alloc(0),
      onInterrupt: (listener) => {
        interrupt = listener;
        return () => undefined;
      },
    });
    expect(status).toBe(1);
    expect(text.out).toMatch(/Stopped after [\d\u202f]+ runs/u);
  });

  it.each([
    [["--runs", "63"], /--runs/],
    [["--runs", "many"], /--runs/],
    [["--until-error", "0"], /--until-error/],
    [["--until-error", "-0.1"], /--until-error/],
    [["--seed", "1.5"], /--seed/],
    [["--case", "nowhere"], /no plan case "nowhere"/],
    [["--compare", "Baseline"], /--compare/],
  ])("refuses %j in words, with status 2", async (options, words) => {
    const { status, err } = await run("risk", ledger, ...options);
    expect(status).toBe(2);
    expect(err).toMatch(words);
  });
});
