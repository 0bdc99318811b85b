/** `report` writes every form from a ledger file, refuses a form it does not have, and leaves the old file when it cannot write. */
import { createHash } from "node:crypto";
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { loadDocument, openLedger } from "../../../db/ledger.ts";
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
  const refused = await run("report", ledger, target, "--replace");
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
  const { status } = await run("report", ledger, target);
  expect(status).toBe(2);
  expect(readFileSync(target, "utf8")).toBe("old");
});

const kept = join(folder, "kept.coldstock");
const sha256 = (path: string): string => createHash("sha256").update(readFileSync(path)).digest("hex");

test("a report that is kept gets a number, is listed, and prints to the same bytes after the plan was edited", async () => {
  loadDocument(kept, demoTarn()).close();
  expect((await run("issues", kept)).out).toContain("No report was issued yet");
  const first = join(folder, "first.pdf");
  const issued = await run("report", kept, first, "--keep", "--for", "Readiness review", "--unit", "kg", "--json");
  expect(JSON.parse(issued.out)).toMatchObject({ issue: 1, mediaType: "application/pdf" });
  expect(issued.err).toContain("Issue 1 is kept in the ledger.");
  const store = openLedger(kept);
  const flight = store.entities().flight.find(({ status }) => status === "planned")!;
  store.commit({
    label: "Cancel one",
    reason: "",
    author: "Ada",
    recordedAt: 0,
    changes: [{ op: "put", kind: "flight", value: { ...flight, status: "cancelled" } }],
    entries: [],
    readings: [],
    withdrawnReadingIds: [],
    reversedEntryIds: [],
  });
  store.close();
  const again = join(folder, "again.pdf");
  expect((await run("report", kept, again, "--issue", "1")).out).toContain(`Wrote issue 1 to ${again}.`);
  expect(sha256(again)).toBe(sha256(first));
  const draft = join(folder, "draft.pdf");
  expect((await run("report", kept, draft, "--unit", "kg")).status).toBe(0);
  expect(sha256(draft)).not.toBe(sha256(first));
  const listed = await run("issues", kept);
  expect(listed.out).toMatch(/^Issue +Issued, UTC +By +Plan case +Inputs +For\n +1 .+ Baseline .+ Readiness review$/m);
  const rows = JSON.parse((await run("issues", kept, "--json")).out) as unknown[];
  expect(rows).toMatchObject([{ number: 1, note: "Readiness review", choices: { massUnit: "kg" } }]);
});

test("where the target of an issue may not be replaced, the old file stays, and nothing is issued", async () => {
  const target = join(folder, "held.pdf");
  writeFileSync(target, "old");
  expect((await run("report", kept, target, "--issue", "1")).status).toBe(2);
  expect(readFileSync(target, "utf8")).toBe("old");
  expect(await run("report", kept, target, "--keep")).toMatchObject({
    status: 2,
    err: expect.stringContaining("--replace") as string,
  });
  expect(readFileSync(target, "utf8")).toBe("old");
  expect(JSON.parse((await run("issues", kept, "--json")).out)).toHaveLength(1);
  expect((await run("report", kept, target, "--issue", "1", "--replace")).status).toBe(0);
  expect(readFileSync(target).toString("latin1", 0, 5)).toBe("%PDF-");
});

test.each([
  ["a choice beside an issue", ["--issue", "1", "--unit", "kg"], /--unit does not go with --issue/],
  ["an issue to be kept again", ["--issue", "1", "--keep"], /--keep does not go with --issue/],
  ["an issue that is not there", ["--issue", "9"], /There is no issue 9/],
  ["no number", ["--issue", "last"], /number of an issue/],
  ["words for nothing", ["--for", "review"], /goes with --keep/],
  ["a section that does not exist", ["--sections", "verdict,weather"], /no report section “weather”/],
])("%s is bad use", async (_what, words, refusal) => {
  const target = join(folder, "bad.pdf");
  const { status, err } = await run("report", kept, target, ...words);
  expect(status).toBe(2);
  expect(err).toMatch(refusal);
  expect(existsSync(target)).toBe(false);
});

test("some sections alone, in the order given", async () => {
  const target = join(folder, "some.html");
  expect((await run("report", kept, target, "--sections", "supply, verdict")).status).toBe(0);
  const titles = [...readFileSync(target, "utf8").matchAll(/<h2>([^<]+)<\/h2>/g)].map(([, title]) => title);
  expect(titles).toEqual(["Supply check", "Go or no-go", "The books that this rests on", "Caution"]);
});
