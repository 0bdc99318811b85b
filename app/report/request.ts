/** What is asked of a report, and the file that comes back. */
import { z } from "zod";
import { id, instant } from "../ledger/quantity.ts";

export const reportForms = ["pdf", "html", "xlsx", "ics", "csv"] as const;
export type ReportForm = (typeof reportForms)[number];

/** What a person chooses of a report. */
export const reportChoices = z.strictObject({
  planCaseId: id,
  /** Another plan case to set beside it; null: none. */
  compareId: id.nullable(),
  /** null: from the first record, or the as-of instant where there is none. */
  fromAt: instant.nullable(),
  /** null: to the horizon. */
  untilAt: instant.nullable(),
  massUnit: z.enum(["t", "kg"]),
  paper: z.enum(["A4", "letter"]),
  /** null: all sections. */
  sectionIds: z.array(id).max(50).nullable(),
});

export const reportRequest = reportChoices.extend({
  form: z.enum(reportForms),
  /** For CSV: which table; null for the others. */
  tableId: id.nullable(),
});
export type ReportRequest = Readonly<z.infer<typeof reportRequest>>;

/** A file as it crosses processes. */
export interface ReportFile {
  readonly suggestedName: string;
  readonly mediaType: string;
  readonly base64: string;
}
