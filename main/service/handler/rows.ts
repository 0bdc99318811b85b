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

/** The step that takes them in, and what becomes of gauge readings in words; null: there are none. */
const stepOf = (
  { preview, changes, readings }: RowsTaking,
  { bookReadings: isBooking = false, openFromSourceId }: Input<"rows.preview">,
  context: Context,
) => {
  const store = context.ledger.store();
  const label = `Bring in ${inWords(preview)}`;
  const step =
    isBooking && readings.length > 0
      ? bookReadings(store, readings, label, recorderOf(context), openFromSourceId ?? null)
      : { ...planStep(context, label, { changes }), readings };
  return { step, booking: readings.length === 0 ? null : bookingWords(store.entities(), step) };
};

export const rowsHandlers: HandlersOf<"rows.preview" | "rows.import" | "rows.export"> = {
  "rows.preview": async (input, context) => {
    if (input.bookReadings !== true) return (await read(input, context)).preview;
    const taking = await readSteady(input, context);
    const isWhole = taking.preview.questions.length === 0 && taking.preview.faultCount === 0;
    return isWhole ? { ...taking.preview, booking: stepOf(taking, input, context).booking } : taking.preview;
  },
  "rows.import": async ({ goodRowsOnly, ...input }, context) => {
    const taking = await readSteady(input, context);
    const { preview, changes, readings } = taking;
    const isWhole = preview.questions.length === 0 && (preview.faultCount === 0 || goodRowsOnly);
    if (!isWhole) return preview;
    context.signal.throwIfAborted();
    context.progress({ share: null, words: "Writing the rows" });
    const { step, booking } = stepOf(taking, input, context);
    remember(preview, context);
    if (changes.length + readings.length > 0) context.ledger.store().commit(step);
    return { ...preview, isTaken: true, booking };
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
