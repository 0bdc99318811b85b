/** A data folder that cannot be used is told as that: at the start, and when it goes while the host runs. */
import { mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import { ledgersIn } from "../../../main/browser/data-folder.ts";
import { makeLedgerTokens } from "../../../main/page/ledger-tokens.ts";
import { dataFolder } from "../../../main/page/program-folder.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-data-"));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

const refusal = (action: () => unknown): string => {
  try {
    action();
  } catch (error) {
    if (error instanceof PlanningError && error.code === "storage") return error.message;
    throw error;
  }
  throw new Error("nothing was refused");
};

it("is made for its owner alone", () => {
  const place = join(folder, "new", "coldstock");
  vi.stubEnv("COLDSTOCK_HOME", place);
  expect(dataFolder()).toBe(place);
  expect(statSync(place).mode & 0o777).toBe(0o700);
});

it("that stands under a file cannot be, and the sentence says which folder and what to do", () => {
  writeFileSync(join(folder, "file"), "");
  vi.stubEnv("COLDSTOCK_HOME", join(folder, "file", "coldstock"));
  expect(refusal(dataFolder)).toMatch(/^The folder for ledgers, \S+, cannot be used \(.*\)\. Make it readable/);
});

it("that has gone is said where the ledgers are listed, as a failure of the disk and no defect", () => {
  const place = join(folder, "gone");
  mkdirSync(place);
  expect(ledgersIn(place, makeLedgerTokens())).toEqual([]);
  rmSync(place, { recursive: true });
  expect(refusal(() => ledgersIn(place, makeLedgerTokens()))).toMatch(/^The folder for ledgers, \S+, cannot be read/);
});
