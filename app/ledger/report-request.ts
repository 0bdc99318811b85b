/** What is asked of a report, and the file that comes back. */
import { z } from "zod";
import { csvForm } from "../format/csv-form.ts";
import type { FileType } from "../ground/file-types.ts";
import { id, instant } from "../ground/quantity.ts";

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
  /** Calendar: the departure windows of the depots as well; not said: no. */
  departureWindows: z.boolean().optional(),
  /** Calendar: when each planned flight must leave at the latest, and all else that is watched; not said: no. */
  leaveBy: z.boolean().optional(),
});

export type AskedChoices = Readonly<z.infer<typeof reportChoices>>;

const issueNumber = z.int().min(1).max(1_000_000);

/** Which report: one of the plan as it is now, one that was issued and is kept, or two of those beside each other. */
export const reportSubject = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("draft"), choices: reportChoices }),
  z.strictObject({ kind: z.literal("issue"), number: issueNumber }),
  z.strictObject({ kind: z.literal("beside"), number: issueNumber, against: issueNumber }),
]);
export type ReportSubject = Readonly<z.infer<typeof reportSubject>>;

export const reportRequest = z.strictObject({
  of: reportSubject,
  form: z.enum(reportForms),
  /** For CSV: which table; null for the others. */
  tableId: id.nullable(),
  /** How CSV is written; not said: strictly. */
  csv: csvForm.optional(),
});

/** A file as it crosses processes. */
export interface ReportFile {
  readonly suggestedName: string;
  readonly mediaType: FileType;
  readonly base64: string;
}
