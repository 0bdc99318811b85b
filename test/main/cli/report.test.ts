/** `report` writes every form from a ledger file, refuses a form it does not have, and leaves the old file when it cannot write. */
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-report-"));
const ledger = join(folder, "tarn.coldstock");
beforeAll(() => loadDocument(ledger, demoTarn()).close());
afterAll(() => {
  chmodSync(folder, 0o755);
  rmSync(folder, { recursive: true, force: true });
});

test.each([
  ["pdf", "%PDF-1.7"],
  ["html", "<!doctype html>"],
  ["xlsx", "PK"],
  ["ics", "BEGIN:VCALENDAR"],
])("a .%s file begins as that form does", async (form, start) => {
  const target = join(folder, `report.${form}`);
  expect((await run("report", ledger, target)).status).toBe(0);
  expect(readFileSync(target, "latin1").startsWith(start)).toBe(true);
});

test("one table goes to CSV by its name; without a name the tables are listed", async () => {
  const target = join(folder, "supply.csv");
  expect((await run("report", ledger, target, "--table", "supply")).status).toBe(0);
  expect(readFileSync(target, "utf8").split("\r\n")).toHaveLength(17);
  const refused = await run("report", ledger, target);
  expect(refused.status).toBe(2);
  expect(refused.err).toContain("supply, flights");
});

test("an unknown form, case, unit or date is bad use: status 2, nothing written", async () => {
  const target = join(folder, "none.doc");
  expect((await run("report", ledger, target)).status).toBe(2);
  expect(existsSync(target)).toBe(false);
  const pdf = join(folder, "none.pdf");
  for (const extra of [
    ["--case", "no such"],
    ["--unit", "lb"],
    ["--from", "2031-02-31"],
  ])
    expect((await run("report", ledger, pdf, ...extra)).status).toBe(2);
  expect(existsSync(pdf)).toBe(false);
});

test("where the target cannot be written, what was there stays", async () => {
  const target = join(folder, "old.pdf");
  writeFileSync(target, "old");
  // A folder in the place of the file that is written beside it: the write fails for root too.
  mkdirSync(`${target}.part`);
  const { status } = await run("report", ledger, target);
  expect(status).toBe(2);
  expect(readFileSync(target, "utf8")).toBe("old");
});
