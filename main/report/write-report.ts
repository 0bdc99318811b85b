/** Writes a finished report in the form that was asked for. */
import { missingCase } from "../../app/ground/missing-case.ts";
import { type CsvForm, strictCsv } from "../../app/format/csv-form.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import type { FinishedReport } from "../../app/report/finished.ts";
import { tableToCsv } from "../../app/report/format/csv.ts";
import { reportToHtml } from "../../app/report/format/html.ts";
import type { ReportModel, Table } from "../../app/report/model.ts";
import type { ReportFile, ReportForm } from "../../app/ledger/report-request.ts";
import { reportToPdf } from "./pdf.ts";
import { reportToXlsx } from "./xlsx.ts";

const mediaTypes = {
  pdf: "application/pdf",
  html: "text/html",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  ics: "text/calendar",
  csv: "text/csv",
} as const satisfies Readonly<Record<ReportForm, ReportFile["mediaType"]>>;

const tableOf = (report: ReportModel, tableId: string | null): Table => {
  const tables = report.sections.flatMap(({ blocks }) =>
    blocks.filter((block): block is Table => block.kind === "table"),
  );
  const table = tables.find(({ id }) => id === tableId);
  if (table !== undefined) return table;
  throw new PlanningError(
    "invalid input",
    tables.length === 0
      ? "This report has no table: choose a section with one."
      : `Name one of the tables: ${tables.map(({ id }) => id).join(", ")}.`,
    "tableId",
  );
};

/** What is written, and of it the table for CSV. */
export interface Writing {
  readonly finished: FinishedReport;
  readonly form: ReportForm;
  readonly tableId: string | null;
  /** How CSV is written; not said: strictly. */
  readonly csv?: CsvForm | undefined;
}

const bytesOf = async (
  { finished, form, tableId, csv = strictCsv }: Writing,
  onPart: (share: number) => void,
): Promise<Buffer> => {
  const { report, calendar } = finished;
  switch (form) {
    case "pdf":
      return await reportToPdf(report, onPart);
    case "html":
      return Buffer.from(reportToHtml(report));
    case "xlsx":
      return await reportToXlsx(report);
    case "ics":
      if (calendar === "")
        throw new PlanningError(
          "invalid input",
          "Two issues beside each other are no plan: there is no calendar of them.",
          "form",
        );
      return Buffer.from(calendar);
    case "csv":
      return Buffer.from(tableToCsv(tableOf(report, tableId), report.massUnit, csv));
    default:
      return missingCase(form);
  }
};

/** "South Rim: Baseline" → "south-rim-baseline". */
const stemOf = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);

const nameOf = ({ finished: { report }, form, tableId }: Writing): string =>
  [
    stemOf(report.title),
    report.issueNumber === null ? "draft" : `issue-${report.issueNumber}`,
    form === "csv" ? tableId : null,
  ]
    .filter((part) => part !== null && part !== "")
    .join("-") + `.${form}`;

/** `onPart` hears the share that is done, 0 to 1. Throws "invalid input" for a table that does not exist. */
export const writeReport = async (writing: Writing, onPart: (share: number) => void): Promise<ReportFile> => ({
  suggestedName: nameOf(writing),
  mediaType: mediaTypes[writing.form],
  base64: (await bytesOf(writing, onPart)).toString("base64"),
});
