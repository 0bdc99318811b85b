/** The line under the title: which issue, when, by whom, in what units. */
import { formatDate } from "../../ledger/time.ts";
import type { ReportModel } from "../model.ts";

/** "Issue 3 of 2031-06-01, by …" */
export const subtitle = (report: ReportModel): string =>
  `${report.issueNumber === null ? "Draft" : `Issue ${report.issueNumber}`} of ${formatDate(report.issuedAt)}, by ${report.author}. Masses in ${report.massUnit}, dates in UTC.`;
