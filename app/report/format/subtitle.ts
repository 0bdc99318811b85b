/** The line under the title: which issue, when, by whom, in what units. */
import { formatDate, formatMinute } from "../../format/time.ts";
import type { ReportModel } from "../model.ts";

/** So many digits of the hash tell two issues of one ledger apart, and can be read out. */
const SHORT_HASH = 12;

/** "3f2a 9c01 77be": the beginning of a hash, for people. */
export const shortHash = (hash: string): string => hash.slice(0, SHORT_HASH).replaceAll(/(.{4})(?=.)/g, "$1 ");

/** "Issue 3" or "Draft". */
export const issueWord = (report: Pick<ReportModel, "issueNumber">): string =>
  report.issueNumber === null ? "Draft" : `Issue ${report.issueNumber}`;

/** At the foot of every page: programme, plan case, issue, as-of instant, inputs. The number of the page stands beside it. */
export const footer = (report: ReportModel): string =>
  [
    report.programme,
    report.caseName,
    issueWord(report).toLowerCase(),
    ...(report.asOfAt === undefined ? [] : [`as of ${formatMinute(report.asOfAt)}`]),
    `inputs ${shortHash(report.inputHash)}`,
    ...(report.booksDigest === undefined ? [] : [`books ${shortHash(report.booksDigest)}`]),
  ].join(" · ");

/** "Issue 3 of 2031-06-01, by …" */
export const subtitle = (report: ReportModel): string =>
  `${issueWord(report)} of ${formatDate(report.issuedAt)}, by ${report.author}.${report.note === "" ? "" : ` ${report.note}.`} ` +
  `Masses in ${report.massUnit}, dates in UTC. Made from inputs ${shortHash(report.inputHash)}${report.booksDigest === undefined ? "" : ` on books ${shortHash(report.booksDigest)}`}.`;
