/** Kept issues of reports: numbered without a gap, never changed, sealed against anyone who writes to the file past the program. */
import { createHash } from "node:crypto";
import { join } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { documentText, parseDocument } from "../../app/exchange/ledger-document.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import type { NewIssue } from "../../app/ledger/report-issue.ts";
import { loadDocument, openLedger } from "../../db/ledger.ts";
import { day, handLedger, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();

const draft = (store: LedgerStore, number: number): NewIssue => ({
  number,
  issuedAt: day(100 + number),
  author: "Ada",
  note: "Readiness review",
  planCaseId: "base",
  caseName: "Base",
  choices: {
    planCaseId: "base",
    compareId: null,
    fromAt: null,
    untilAt: null,
    massUnit: "t",
    paper: "A4",
    sectionIds: null,
  },
  inputHash: "ab".repeat(32),
  content: JSON.stringify({ words: "ä “b” \n 𝄞", number }),
  lastStepId: store.newestStepId(),
});

const withTwo = () => {
  const store = handLedger(folder);
  store.keepReportIssue(draft(store, 1));
  store.keepReportIssue(draft(store, 2));
  return store;
};

test("an issue is kept with its content, and its seal is the SHA-256 that any tool computes of what lies in the file", () => {
  const store = withTwo();
  const { path } = store.header();
  expect(store.reportIssues().map(({ number, note }) => [number, note])).toEqual([
    [1, "Readiness review"],
    [2, "Readiness review"],
  ]);
  expect(store.reportIssue(2).content).toBe(draft(store, 2).content);
  expect(() => store.reportIssue(3)).toThrow(/no issue 3/);
  store.close();
  const db = new Sqlite(path, { readonly: true });
  const row = db.prepare("SELECT * FROM report_issue WHERE number = 2").get() as Record<string, never>;
  const text = JSON.stringify([
    row["number"],
    row["issued_at"],
    row["author"],
    row["note"],
    row["plan_case_id"],
    row["case_name"],
    JSON.parse(row["choices"] ?? "") as unknown,
    row["input_hash"],
    gunzipSync(row["content"] ?? "").toString("utf8"),
  ]);
  expect(row["seal"]).toBe(createHash("sha256").update(text).digest("hex"));
  db.close();
});

test("numbers have no gap and none is given twice", () => {
  const store = withTwo();
  expect(() => store.keepReportIssue(draft(store, 2))).toThrow(/without a gap/);
  expect(() => store.keepReportIssue(draft(store, 4))).toThrow(/without a gap/);
  expect(store.reportIssues()).toHaveLength(2);
  store.close();
});

test.each([
  ["UPDATE report_issue SET author = 'Eve' WHERE number = 1", /never changed/],
  ["DELETE FROM report_issue WHERE number = 2", /never deleted/],
  ["REPLACE INTO report_issue SELECT * FROM report_issue WHERE number = 1", /without a gap/],
])("the file refuses: %s", (sql, refusal) => {
  const store = withTwo();
  const { path } = store.header();
  store.close();
  const db = new Sqlite(path);
  expect(() => db.prepare(sql).run()).toThrow(refusal);
  db.close();
});

test.each([
  ["author", "UPDATE report_issue SET author = 'Eve' WHERE number = 1"],
  ["instant", "UPDATE report_issue SET issued_at = issued_at + 1 WHERE number = 1"],
  ["hash of inputs", "UPDATE report_issue SET input_hash = seal WHERE number = 1"],
  ["choices", "UPDATE report_issue SET choices = json_set(choices, '$.massUnit', 'kg') WHERE number = 1"],
])("whoever takes the triggers away and changes the %s is found out", (_what, sql) => {
  const store = withTwo();
  const { path } = store.header();
  store.close();
  const db = new Sqlite(path);
  db.exec("DROP TRIGGER report_issue_stands");
  expect(db.prepare(sql).run().changes).toBe(1);
  db.close();
  const again = openLedger(path);
  expect(again.verify()).toMatchObject({ isSound: false, faults: [expect.stringMatching(/Issue 1 is not what was/)] });
  expect(() => again.reportIssue(1)).toThrow(/not what was issued/);
  expect(again.reportIssue(2).number).toBe(2);
  again.close();
});

test("changed, spoiled and missing content is found", () => {
  const store = withTwo();
  const { path } = store.header();
  store.close();
  const db = new Sqlite(path);
  db.exec("DROP TRIGGER report_issue_stands; DROP TRIGGER report_issue_is_kept");
  db.prepare("UPDATE report_issue SET content = ? WHERE number = 1").run(gzipSync('{"words":"all is well"}'));
  db.prepare("UPDATE report_issue SET content = ? WHERE number = 2").run(Buffer.from("spoiled"));
  db.close();
  const spoiled = openLedger(path);
  expect(spoiled.verify().faults).toEqual([
    expect.stringMatching(/Issue 1 is not what was issued/),
    expect.stringMatching(/content of issue 2 is damaged/),
  ]);
  spoiled.close();
  const later = new Sqlite(path);
  later.prepare("DELETE FROM report_issue WHERE number = 1").run();
  later.close();
  const gap = openLedger(path);
  expect(gap.verify().faults[0]).toMatch(/Issue 1 is missing/);
  gap.close();
});

test("issues travel with the exported ledger to the byte, and a forged one is refused", () => {
  const store = withTwo();
  const text = documentText(store.document());
  store.close();
  const again = loadDocument(join(folder, "travelled.coldstock"), parseDocument(text));
  expect(again.verify()).toMatchObject({ isSound: true, faults: [] });
  expect(documentText(again.document())).toBe(text);
  expect(again.reportIssue(2).content).toBe(draft(again, 2).content);
  again.close();
  const forged = parseDocument(text.replace('"Readiness review"', '"Reviewed and approved"'));
  expect(() => loadDocument(join(folder, "forged.coldstock"), forged)).toThrow(/not what was issued/);
  const document = JSON.parse(text) as { reportIssues: unknown[] };
  document.reportIssues.shift();
  expect(() => parseDocument(JSON.stringify(document))).toThrow(/without a gap/);
});

test("changes since an issue are the steps done, undone or redone after it", () => {
  const store = handLedger(folder);
  const before = store.history(0, 100).length;
  expect(store.changesSince(null, 100)).toHaveLength(before);
  store.keepReportIssue(draft(store, 1));
  expect(store.changesSince(1, 100)).toEqual([]);
  store.undo("Ada", day(400));
  expect(store.changesSince(1, 100).map(({ state }) => state)).toEqual(["undone"]);
  expect(() => store.keepReportIssue({ ...draft(store, 2), issuedAt: day(401) })).not.toThrow();
  expect(store.changesSince(2, 100)).toEqual([]);
  store.redo("Ada", day(402));
  expect(store.changesSince(2, 100).map(({ state }) => state)).toEqual(["done"]);
  store.close();
});
