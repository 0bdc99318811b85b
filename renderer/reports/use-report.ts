/** The report that is shown, as plain data, asked for anew with every choice and every revision; the old one stays until then. */
import type { ReportSubject } from "../../app/ledger/report-request.ts";
import { type Question, useQuestion } from "../state/use-question.ts";

/** `of` null: nothing can be shown. What was issued stays as it is: a change of the plan is no reason to ask anew. */
export const useReport = (of: ReportSubject | null): Question<"report.show"> =>
  useQuestion("report", "report.show", of === null ? null : { of }, {
    title: "Making the report",
    isFixed: of !== null && of.kind !== "draft",
  });
