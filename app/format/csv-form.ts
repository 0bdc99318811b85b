/** How a table is written as text: strictly (RFC 4180, ISO 8601), or as a spreadsheet program likes it. */
import { stringify } from "csv-stringify/browser/esm/sync";
import { z } from "zod";
import { formatInstant } from "./time.ts";

/** Commas part cells and a point parts decimals; semicolons go with a decimal comma; tabs with a point. */
export const csvSeparators = ["comma", "semicolon", "tab"] as const;
export type CsvSeparator = (typeof csvSeparators)[number];

export const csvForm = z.strictObject({
  /** A byte-order mark at the beginning, by which some spreadsheet programs know UTF-8. */
  hasMark: z.boolean(),
  /** "exact": 2031-02-20T14:05:00.000Z; "spreadsheet": 2031-02-20 14:05:00, which a spreadsheet takes for a date; UTC both. */
  dates: z.enum(["exact", "spreadsheet"]),
  separator: z.enum(csvSeparators),
});
export type CsvForm = Readonly<z.infer<typeof csvForm>>;

/** What is written where nothing else is asked for. */
export const strictCsv: CsvForm = { hasMark: false, dates: "exact", separator: "comma" };

/** A figure as it is to stand, with a point; text stands as it is. */
export type CsvCell = string | number | Date | { readonly figure: string } | null;

const characters = { comma: ",", semicolon: ";", tab: "\t" } as const satisfies Readonly<Record<CsvSeparator, string>>;

/** Thousandths of a second only where there are any: a spreadsheet reads the shorter form everywhere. */
const spreadsheetDate = (at: number): string =>
  formatInstant(at)
    .replace("T", " ")
    .replace(/(?:\.000)?Z$/, "");

const cellText = (cell: CsvCell, { dates, separator }: CsvForm): string => {
  if (cell === null) return "";
  if (typeof cell === "string") return cell;
  if (cell instanceof Date) return dates === "exact" ? formatInstant(cell.getTime()) : spreadsheetDate(cell.getTime());
  const figure = typeof cell === "number" ? String(cell) : cell.figure;
  return separator === "semicolon" ? figure.replace(".", ",") : figure;
};

/** CRLF after each line, quotes doubled; text that begins or ends in a space stands in quotes. */
export const csvText = (rows: readonly (readonly CsvCell[])[], form: CsvForm): string =>
  stringify(
    rows.map((row) => row.map((cell) => cellText(cell, form))),
    {
      bom: form.hasMark,
      delimiter: characters[form.separator],
      record_delimiter: "windows",
      quoted_match: /^\s|\s$/,
    },
  );
