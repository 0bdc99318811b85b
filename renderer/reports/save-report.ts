/** Writes the report that is shown in one of its forms and hands it to the host to be saved. */
import type { ReportForm } from "../../app/ledger/report-request.ts";
import type { Session } from "../state/session.ts";
import { shown, subjectShown } from "./report-choices.ts";

export const formWords: Readonly<Record<ReportForm, string>> = {
  pdf: "PDF",
  html: "page (HTML)",
  xlsx: "workbook (XLSX)",
  ics: "calendar (ICS)",
  csv: "table (CSV)",
};

/** `tableId`: for CSV, which table. What goes wrong is told. */
export const saveReport = async (session: Session, form: ReportForm, tableId: string | null): Promise<void> => {
  const of = subjectShown(shown.get(), session.store.get());
  if (of === null) return;
  const written = await session.work.begin(
    "report.write",
    { of, form, tableId, ...(form === "csv" ? { csv: shown.get().choices.csv } : {}) },
    { title: `Report as ${formWords[form]}` },
  ).reply;
  if (!written.ok) {
    session.fail(written.failure);
    return;
  }
  const { suggestedName, mediaType, base64 } = written.value;
  const saved = await session.client.host.saveFile(suggestedName, mediaType, base64);
  if (!saved.ok) session.fail(saved.failure);
  else if (saved.value !== null) session.tell("information", `The report was written to ${saved.value}.`);
};
