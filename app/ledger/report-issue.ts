/** An issue of a report, as the ledger keeps it: who issued what and when, from which inputs, and the finished report. */
import { z } from "zod";
import { id, instant, label } from "../ground/quantity.ts";
import { isWhole } from "../ground/readable-text.ts";
import { reportChoices } from "./report-request.ts";

/** A SHA-256 in hexadecimal. */
const sha256 = z.string().regex(/^[0-9a-f]{64}$/, "a hash has 64 hexadecimal digits");

/** What a report is issued for, one line: "readiness review"; may be empty. */
export const issueNote = z
  .string()
  .max(200, "what it is for has 200 characters at most")
  // Published as it stands (JSON Schema): classes that only some engines know are not for here.
  // eslint-disable-next-line no-control-regex -- control characters are what this rule keeps out
  .regex(/^[^\u0000-\u001f\u007f]*$/, "what it is for is one line of text")
  .refine(isWhole, "what it is for has half a character in it; type it anew");

export const reportIssue = z.strictObject({
  /** 1, 2, 3 … in each ledger, without a gap. */
  number: z.int().min(1).max(1_000_000),
  issuedAt: instant,
  author: z.string().min(1).max(80),
  note: issueNote,
  planCaseId: id,
  /** Its name at the time: the case may be renamed or removed since. */
  caseName: label,
  choices: reportChoices,
  /** Of the plan, the records and the choices that it was made from. */
  inputHash: sha256,
  /** Of all the above and of the content. */
  seal: sha256,
});
export type ReportIssue = Readonly<z.infer<typeof reportIssue>>;

/** An issue as it travels with an exported ledger. */
export const keptIssue = reportIssue.extend({
  /** The finished report, JSON text in UTF-8, gzip, base64. */
  contentGzip: z
    .string()
    .max(32_000_000)
    .regex(/^[A-Za-z0-9+/]*={0,2}$/, "the content is written in base64"),
});
export type KeptIssue = Readonly<z.infer<typeof keptIssue>>;

/** An issue to be kept; the ledger seals it. */
export interface NewIssue extends Omit<ReportIssue, "seal"> {
  /** JSON text of the finished report (app/report/finished.ts). */
  readonly content: string;
  /** The newest step of the edit history that it knows; 0: none. */
  readonly lastStepId: number;
}

/** The text whose SHA-256 is the issue's seal. */
export const sealedText = (issue: Omit<NewIssue, "lastStepId">): string =>
  JSON.stringify([
    issue.number,
    issue.issuedAt,
    issue.author,
    issue.note,
    issue.planCaseId,
    issue.caseName,
    issue.choices,
    issue.inputHash,
    issue.content,
  ]);
