/** Kept issues of reports in the file: written once, sealed by a hash, never changed. */
import { createHash } from "node:crypto";
import { gunzipSync, gzipSync } from "node:zlib";
import { PlanningError } from "../app/ground/failure.ts";
import type { EditStep } from "../app/ledger/ledger-view.ts";
import { type KeptIssue, type NewIssue, type ReportIssue, sealedText } from "../app/ledger/report-issue.ts";
import type { Connection } from "./connection.ts";

/** The most that one issue may unpack to, bytes: what unpacks to more was not written by this program. */
const MAX_CONTENT = 256_000_000;

interface IssueRow {
  readonly number: number;
  readonly issued_at: number;
  readonly author: string;
  readonly note: string;
  readonly plan_case_id: string;
  readonly case_name: string;
  readonly choices: string;
  readonly input_hash: string;
  readonly seal: string;
}

const HEAD = "number, issued_at, author, note, plan_case_id, case_name, choices, input_hash, seal";

const issueOf = (row: IssueRow): ReportIssue => ({
  number: row.number,
  issuedAt: row.issued_at,
  author: row.author,
  note: row.note,
  planCaseId: row.plan_case_id,
  caseName: row.case_name,
  choices: JSON.parse(row.choices) as ReportIssue["choices"],
  inputHash: row.input_hash,
  seal: row.seal,
});

/** All issues without their content, the first first. */
export const readIssues = (db: Connection): readonly ReportIssue[] =>
  (db.prepared(`SELECT ${HEAD} FROM report_issue ORDER BY number`).all() as IssueRow[]).map(issueOf);

const packedContent = (db: Connection, number: number): Buffer | undefined =>
  db.prepared("SELECT content FROM report_issue WHERE number = ?").pluck().get(number) as Buffer | undefined;

/** Throws "refused" for what does not unpack to text. */
const unpack = (packed: Buffer, number: number): string => {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(
      gunzipSync(packed, { maxOutputLength: MAX_CONTENT }),
    );
  } catch {
    throw new PlanningError("refused", `The content of issue ${number} is damaged: it cannot be unpacked.`);
  }
};

/** One issue with its content. Throws "not found"; "refused" if the content is damaged. */
export const readIssue = (db: Connection, number: number): ReportIssue & { readonly content: string } => {
  const row = db.prepared(`SELECT ${HEAD} FROM report_issue WHERE number = ?`).get(number) as IssueRow | undefined;
  const packed = packedContent(db, number);
  if (row === undefined || packed === undefined)
    throw new PlanningError("not found", `There is no issue ${number} in this ledger.`, "issueNumber");
  const issue = { ...issueOf(row), content: unpack(packed, number) };
  if (sealOf(issue) !== issue.seal) throw new PlanningError("refused", brokenSeal(number));
  return issue;
};

const brokenSeal = (number: number): string =>
  `Issue ${number} is not what was issued: its hash does not agree with its content.`;

const sealOf = (issue: Omit<NewIssue, "lastStepId">): string =>
  createHash("sha256").update(sealedText(issue)).digest("hex");

const insert = (db: Connection, issue: ReportIssue, packed: Buffer, lastStepId: number): void => {
  db.prepared(
    "INSERT INTO report_issue (number, issued_at, author, note, plan_case_id, case_name, choices, input_hash, content, seal, last_step_id) " +
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
  ).run(
    issue.number,
    issue.issuedAt,
    issue.author,
    issue.note,
    issue.planCaseId,
    issue.caseName,
    JSON.stringify(issue.choices),
    issue.inputHash,
    packed,
    issue.seal,
    lastStepId,
  );
  // Read back at once: what the file does not hold letter for letter must not be kept.
  readIssue(db, issue.number);
};

/** Seals an issue and keeps it. Throws "refused" if its number is not the next one. */
export const keepIssue = (db: Connection, issue: NewIssue): ReportIssue => {
  const { content, lastStepId, ...head } = issue;
  const sealed: ReportIssue = { ...head, seal: sealOf(issue) };
  db.write(() => {
    insert(db, sealed, gzipSync(content, { level: 9 }), lastStepId);
    db.prepared("UPDATE ledger SET revision = revision + 1").run();
  });
  return sealed;
};

/** Writes an issue that came with a document. Throws "refused" if its seal does not hold. */
export const writeIssue = (db: Connection, { contentGzip, ...issue }: KeptIssue): void => {
  const packed = Buffer.from(contentGzip, "base64");
  if (sealOf({ ...issue, content: unpack(packed, issue.number) }) !== issue.seal)
    throw new PlanningError("refused", brokenSeal(issue.number), "reportIssues");
  insert(db, issue, packed, 0);
};

/** Issues as they travel with a document. */
export const readKeptIssues = (db: Connection): readonly KeptIssue[] =>
  readIssues(db).map((issue) => ({
    ...issue,
    contentGzip: (packedContent(db, issue.number) ?? Buffer.alloc(0)).toString("base64"),
  }));

/** What is wrong with the kept issues, in words. */
export const issueFaults = (db: Connection): readonly string[] =>
  readIssues(db).flatMap(({ number }, index) => {
    const gap = number === index + 1 ? [] : [`Issue ${index + 1} is missing before issue ${number}.`];
    try {
      readIssue(db, number);
      return gap;
    } catch (error) {
      if (!(error instanceof PlanningError)) throw error;
      return [...gap, error.message];
    }
  });

/** The newest step of the edit history; 0: none. */
export const newestStepId = (db: Connection): number =>
  db.prepared("SELECT coalesce(max(id), 0) FROM edit_step").pluck().get() as number;

const TURNED_SINCE = `SELECT s.id FROM edit_step s JOIN report_issue r ON r.number = ?
  WHERE s.id > r.last_step_id OR s.turned_at > r.issued_at`;

/** Which of the steps were done, undone or redone after an issue. */
export const sinceIssue = (db: Connection, number: number, steps: readonly EditStep[]): readonly EditStep[] => {
  const ids = new Set(db.prepared(TURNED_SINCE).pluck().all(number) as number[]);
  return steps.filter(({ id }) => ids.has(id));
};
