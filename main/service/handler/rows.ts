/** Rows of a plan in and out: read in a thread against the ledger as it is, written in one step. */
import type { Input } from "../../../app/contract/contract.ts";
import { strictCsv } from "../../../app/format/csv-form.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import { noForms } from "../../../app/exchange/calendar/calendar-forms.ts";
import type { RowsTaking } from "../../../app/exchange/rows/read-rows.ts";
import type { RowsPreview } from "../../../app/exchange/rows/rows-preview.ts";
import { rowsTable, rowsToCsv } from "../../../app/exchange/rows/write-rows.ts";
import type { Context, HandlersOf } from "../context.ts";
import { bookingWords, bookReadings } from "../../../app/records/book-readings.ts";
import { planStep, recorderOf } from "../step.ts";
import { ask } from "../work/ask.ts";

const read = async (
  { kind, planCaseId, source, sheet, mapping, calendar = noForms }: Input<"rows.preview">,
  context: Context,
): Promise<RowsTaking> => {
  const store = context.ledger.store();
  const known = kind === "readings" || kind === null ? store.readings() : [];
  const target = {
    entities: store.entitiesOfCase(planCaseId),
    planCaseId,
    ledgerId: store.identity(),
    known,
    openings: store.openings(),
  };
  const question = { source, kind, sheet, mapping, calendar, remembered: store.columnMappings(), target };
  return await ask(context, "rows.read", null, question);
};

const MAX_ATTEMPTS = 3;

/** Reads until the ledger stayed as it was meanwhile: what is written was checked against what is there. */
const readSteady = async (input: Input<"rows.preview">, context: Context): Promise<RowsTaking> => {
  for (let attempt = 0; attempt < MAX_ATTEMPTS; attempt += 1) {
    const before = context.ledger.stamp();
    const taking = await read(input, context);
    const after = context.ledger.stamp();
    if (before?.path !== after?.path)
      throw new PlanningError("refused", "Another ledger was opened while the file was being read. Import it again.");
    if (before?.revision === after?.revision) return taking;
  }
  throw new PlanningError("refused", "The ledger kept changing while the file was being read. Import it again.");
};

const inWords = ({ kind, newRows, changedRows }: RowsPreview): string =>
  [newRows > 0 ? `${newRows} new` : "", changedRows > 0 ? `${changedRows} changed` : ""].filter(Boolean).join(", ") +
  ` ${kind}`;

/** How the columns were read is kept for the next file with these headings. */
const remember = ({ kind, columns, mapping }: RowsPreview, { ledger, environment }: Context): void => {
  if (columns.length === 0) return;
  const headings = columns.map(({ heading }) => heading);
  ledger.store().keepColumnMapping({ kind, headings, mapping }, environment.now());
};

export const rowsHandlers: HandlersOf<"rows.preview" | "rows.import" | "rows.export"> = {
  "rows.preview": async (input, context) => (await read(input, context)).preview,
  "rows.import": async ({ goodRowsOnly, bookReadings: isBooking = false, ...input }, context) => {
    const { preview, changes, readings } = await readSteady(input, context);
    const isWhole = preview.questions.length === 0 && (preview.faultCount === 0 || goodRowsOnly);
    if (!isWhole) return preview;
    context.signal.throwIfAborted();
    context.progress({ share: null, words: "Writing the rows" });
    const store = context.ledger.store();
    const label = `Bring in ${inWords(preview)}`;
    const step =
      isBooking && readings.length > 0
        ? bookReadings(store, readings, label, recorderOf(context))
        : { ...planStep(context, label, { changes }), readings };
    remember(preview, context);
    if (changes.length + readings.length > 0) store.commit(step);
    return { ...preview, isTaken: true, booking: readings.length === 0 ? null : bookingWords(store.entities(), step) };
  },
  "rows.export": async ({ kind, planCaseId, format, csv = strictCsv }, { ledger }) => {
    const store = ledger.store();
    const table = rowsTable(kind, store.entitiesOfCase(planCaseId), kind === "readings" ? store.readings() : []);
    const fileName = `${kind}.${format}`;
    if (format === "csv") return { fileName, base64: Buffer.from(rowsToCsv(table, csv)).toString("base64") };
    const { rowsToWorkbook } = await import("../../exchange/rows-workbook.ts");
    return { fileName, base64: (await rowsToWorkbook(table, kind)).toString("base64") };
  },
};
