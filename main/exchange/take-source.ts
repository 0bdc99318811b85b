/** A file that somebody chose, read as rows of one kind: what it is is seen from its bytes. Runs in a worker thread. */
import { PlanningError } from "../../app/ground/failure.ts";
import { isCalendar } from "../../app/exchange/calendar/calendar-event.ts";
import type { CalendarForms } from "../../app/exchange/calendar/calendar-forms.ts";
import { readCalendar } from "../../app/exchange/calendar/read-calendar.ts";
import type { ColumnMapping, RememberedMapping, RowKind } from "../../app/ledger/column-mapping.ts";
import { ourColumns } from "../../app/exchange/rows/our-columns.ts";
import { likelyKind, readHeading } from "../../app/exchange/rows/read-heading.ts";
import { type OnShare, readRows, type RowsTaking, type RowsTarget } from "../../app/exchange/rows/read-rows.ts";
import type { RowsSource } from "../../app/exchange/rows/rows-source.ts";
import { separatorOf } from "../../app/exchange/rows/separator.ts";
import { type SourceTable, tableOf } from "../../app/exchange/rows/source-table.ts";
import { counted } from "../../app/words/counted.ts";
import { type DecodedText, decodeText } from "./decode-text.ts";
import { readWorkbook, type WorkbookSheet } from "./read-workbook.ts";
import { linesOfText } from "./text-lines.ts";
import { isWorkbook } from "./unpack-workbook.ts";

export interface SourceQuestion {
  readonly source: RowsSource;
  /** null: as the headings make likely. */
  readonly kind: RowKind | null;
  /** null: the sheet that fits best. */
  readonly sheet: string | null;
  readonly mapping: ColumnMapping;
  /** What was said of a calendar's times. */
  readonly calendar: CalendarForms;
  readonly remembered: readonly RememberedMapping[];
  readonly target: Omit<RowsTarget, "kind">;
}

const partedBy = { comma: "commas", semicolon: "semicolons", tab: "tabs", bar: "bars" } as const;

const bytesOf = (source: RowsSource): Buffer => Buffer.from("base64" in source ? source.base64 : "", "base64");

const recognisedBy = (question: SourceQuestion) => {
  const columnsOf = (kind: RowKind) => ourColumns(kind, question.target.entities);
  const kinds: readonly RowKind[] = question.kind === null ? ["flights", "sorties", "readings"] : [question.kind];
  const known = (headings: readonly string[]): number =>
    Math.max(
      ...kinds.map((kind) => {
        const columns = columnsOf(kind);
        return headings.filter((heading) => heading !== "" && readHeading(heading, columns) !== null).length;
      }),
    );
  const kindOf = (headings: readonly string[]): RowKind => question.kind ?? likelyKind(headings, columnsOf);
  return { known, kindOf };
};

const takeTable = (
  question: SourceQuestion,
  table: SourceTable,
  about: Parameters<typeof readRows>[4],
  onShare: OnShare,
): RowsTaking => {
  const kind = recognisedBy(question).kindOf(table.headings);
  const readAs = `${about.readAs}; headings in line ${table.headingLine}`;
  return readRows(
    table,
    { ...question.target, kind },
    question.mapping,
    question.remembered,
    { ...about, readAs },
    onShare,
  );
};

const withRemark = (taken: RowsTaking, remark: string | null): RowsTaking =>
  remark === null ? taken : { ...taken, preview: { ...taken.preview, remarks: [remark, ...taken.preview.remarks] } };

const takeWorkbook = async (question: SourceQuestion, bytes: Buffer, onShare: OnShare): Promise<RowsTaking> => {
  const sheets = await readWorkbook(bytes);
  const { known } = recognisedBy(question);
  const asTable = ({ lines }: WorkbookSheet): SourceTable => tableOf(lines, null, known);
  const filled = sheets.filter(({ lines }) => lines.some(({ cells }) => cells.some((cell) => cell !== null)));
  const named = filled.find(({ name }) => name === question.sheet);
  if (question.sheet !== null && named === undefined)
    throw new PlanningError(
      "invalid input",
      `The workbook has no sheet “${question.sheet}” with anything on it. It has: ${filled.map(({ name }) => name).join(", ")}.`,
      "sheet",
    );
  const [first] = filled;
  if (first === undefined) throw new PlanningError("invalid input", "The workbook is empty.", "content");
  // The first sheet, unless the headings of another say more.
  const score = (sheet: WorkbookSheet): number => {
    try {
      return known(asTable(sheet).headings);
    } catch {
      return -1;
    }
  };
  // A hidden sheet is read where nothing of a visible one is known, or where it is asked for.
  const visible = filled.filter((sheet) => !sheet.isHidden && score(sheet) > 0);
  const among = visible.length > 0 ? visible : filled;
  const chosen = named ?? among.reduce((best, each) => (score(each) > score(best) ? each : best), among[0] ?? first);
  const remarks = [
    ...(chosen.isHidden ? [`The sheet “${chosen.name}” is hidden in the workbook.`] : []),
    ...(chosen.hiddenRows > 0
      ? [
          `${counted(chosen.hiddenRows, "row")} of the sheet ${chosen.hiddenRows === 1 ? "is" : "are"} hidden in the workbook and read all the same.`,
        ]
      : []),
  ];
  const taken = takeTable(
    question,
    asTable(chosen),
    {
      format: "workbook",
      readAs:
        filled.length > 1
          ? `a workbook of ${filled.length} sheets, sheet “${chosen.name}”`
          : `a workbook, sheet “${chosen.name}”`,
      sheets: filled.map(({ name }) => name),
      sheet: chosen.name,
    },
    onShare,
  );
  return remarks.reduceRight(withRemark, taken);
};

const takeText = (question: SourceQuestion, { text, encoding, remark }: DecodedText, onShare: OnShare): RowsTaking => {
  const { known } = recognisedBy(question);
  if (isCalendar(text)) {
    const taken = readCalendar(
      text,
      question.calendar,
      { ...question.target, kind: question.kind ?? "flights" },
      `${encoding} text`,
      onShare,
    );
    return withRemark(taken, remark);
  }
  const separator = question.mapping.separator ?? separatorOf(text);
  const table = tableOf(linesOfText(text, separator), separator, known);
  const readAs = `${encoding} text, cells parted by ${partedBy[separator]}`;
  return withRemark(takeTable(question, table, { format: "text", readAs, sheets: [], sheet: null }, onShare), remark);
};

/** Throws "invalid input" in words for a file that cannot be read at all. */
export const takeSource = async (question: SourceQuestion, onShare: OnShare): Promise<RowsTaking> => {
  const { source } = question;
  if ("text" in source) return takeText(question, { text: source.text, encoding: "pasted", remark: null }, onShare);
  const bytes = bytesOf(source);
  if (isWorkbook(bytes) || /\.xls[xmb]?$/i.test(source.fileName)) return await takeWorkbook(question, bytes, onShare);
  return takeText(question, decodeText(bytes), onShare);
};
