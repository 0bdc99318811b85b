/** Writes a report in the form that was asked for. */
import { PlanningError } from "../../app/contract/failure.ts";
import { buildReport } from "../../app/report/build.ts";
import { planToCalendar } from "../../app/report/format/calendar.ts";
import { tableToCsv } from "../../app/report/format/csv.ts";
import { reportToHtml } from "../../app/report/format/html.ts";
import type { ReportModel, Table } from "../../app/report/model.ts";
import type { ReportFile, ReportForm, ReportRequest } from "../../app/report/request.ts";
import { allSectionIds } from "../../app/report/sections.ts";
import type { LedgerStore } from "../../app/ledger/store.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import { reportToPdf } from "./pdf.ts";
import { reportContext } from "./report-context.ts";
import { reportToXlsx } from "./xlsx.ts";

const mediaTypes: Readonly<Record<ReportForm, string>> = {
  pdf: "application/pdf",
  html: "text/html",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  ics: "text/calendar",
  csv: "text/csv",
};

export interface Issue {
  readonly author: string;
  readonly issuedAt: number;
  readonly onPart: (share: number) => void;
}

const tableOf = (report: ReportModel, tableId: string | null): Table => {
  const tables = report.sections.flatMap(({ blocks }) =>
    blocks.filter((block): block is Table => block.kind === "table"),
  );
  const table = tables.find(({ id }) => id === tableId);
  if (table === undefined)
    throw new PlanningError(
      "invalid input",
      `Name one of the tables: ${tables.map(({ id }) => id).join(", ")}.`,
      "tableId",
    );
  return table;
};

const bytesOf = async (store: LedgerStore, asked: ReportRequest, issue: Issue): Promise<Buffer> => {
  const { plan, past, revision } = planView(store, asked.planCaseId);
  if (asked.form === "ics") return Buffer.from(planToCalendar(plan, issue.issuedAt, revision));
  const firstAt = past.flatMap(({ segments }) => segments.slice(0, 1).map(({ startAt }) => startAt));
  const choices = {
    fromAt: asked.fromAt ?? Math.min(plan.asOfAt, ...firstAt),
    untilAt: asked.untilAt ?? plan.horizonAt,
    massUnit: asked.massUnit,
    paper: asked.paper,
    sectionIds: asked.sectionIds ?? allSectionIds,
  };
  const report = buildReport(reportContext(store, asked.planCaseId, asked.compareId, choices, issue));
  switch (asked.form) {
    case "pdf":
      return await reportToPdf(report, issue.onPart);
    case "html":
      return Buffer.from(reportToHtml(report));
    case "xlsx":
      return await reportToXlsx(report);
    case "csv":
      return Buffer.from(tableToCsv(tableOf(report, asked.tableId), asked.massUnit));
  }
};

/** Throws "not found" for an unknown case, "invalid input" for a section or table that does not exist. */
export const writeReport = async (store: LedgerStore, asked: ReportRequest, issue: Issue): Promise<ReportFile> => ({
  suggestedName: `${asked.tableId ?? "report"}-${asked.planCaseId}.${asked.form}`,
  mediaType: mediaTypes[asked.form],
  base64: (await bytesOf(store, asked, issue)).toString("base64"),
});
