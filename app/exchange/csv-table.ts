/** A CSV text as rows with their line in the file. Comma, semicolon or tab, as its first line shows. */
import { parse } from "csv-parse/browser/esm/sync";
import type { CsvFault } from "./csv-preview.ts";

export interface CsvRow {
  /** Line of the file on which the row begins, from 1. */
  readonly line: number;
  /** Cells by heading, in small letters; an empty cell is "". */
  readonly cells: ReadonlyMap<string, string>;
}

export interface CsvTable {
  readonly delimiter: string;
  /** Headings as they stand in the file. */
  readonly headings: readonly string[];
  readonly rows: readonly CsvRow[];
  readonly faults: readonly CsvFault[];
}

/** As many as one step of editing may change. */
export const MOST_ROWS = 20_000;

/** The longest row, characters. */
const MOST_ROW_TEXT = 100_000;

const delimiters = [",", ";", "\t"] as const;

/** The delimiter that stands most often in the first line, outside quotes. */
const delimiterOf = (text: string): string => {
  const first = (/^[^\r\n]*/.exec(text)?.[0] ?? "").slice(0, MOST_ROW_TEXT).replaceAll(/"[^"]*"/g, "");
  const counted = delimiters.map((mark) => ({ mark, count: first.split(mark).length }));
  return counted.toSorted((a, b) => b.count - a.count)[0]?.mark ?? ",";
};

interface ParsedRecord {
  readonly record: readonly string[];
  readonly raw: string;
}

const parseText = (text: string, delimiter: string): readonly ParsedRecord[] =>
  parse(text, {
    delimiter,
    bom: true,
    raw: true,
    relax_column_count: true,
    max_record_size: MOST_ROW_TEXT,
    trim: true,
    to: MOST_ROWS + 2,
  }) as unknown as readonly ParsedRecord[];

const lineBreaks = (text: string): number => text.split(/\r\n|\n|\r/).length - 1;

/** What the parser reports, in words. */
const parseFault = (error: unknown): CsvFault => {
  const { code, lines } = error as { code?: string; lines?: number };
  const line = typeof lines === "number" ? lines : 1;
  if (code === "CSV_QUOTE_NOT_CLOSED") return { line, column: null, reason: "a quotation mark is not closed" };
  if (code === "CSV_MAX_RECORD_SIZE")
    return { line, column: null, reason: `a row is longer than ${MOST_ROW_TEXT} characters` };
  return { line, column: null, reason: "quotation marks stand where none may: a quoted cell is quoted whole" };
};

const normal = (heading: string): string => heading.trim().toLowerCase().replaceAll(/\s+/g, " ");

const isBlank = (record: readonly string[]) => record.every((cell) => cell === "");

/** The rows with their lines; rows with another number of cells than the headings are faults. */
const rowsOf = (records: readonly ParsedRecord[], headings: readonly string[]) => {
  const rows: CsvRow[] = [];
  const faults: CsvFault[] = [];
  let line = 1;
  for (const [index, { record, raw }] of records.entries()) {
    // Blank lines before a record belong to its raw text.
    const begins = line + lineBreaks(/^\s*/.exec(raw)?.[0] ?? "");
    line += lineBreaks(raw);
    if (index === 0 || isBlank(record)) continue;
    if (record.length === headings.length)
      rows.push({ line: begins, cells: new Map(headings.map((heading, i) => [normal(heading), record[i] ?? ""])) });
    else
      faults.push({
        line: begins,
        column: null,
        reason: `the row has ${record.length} cells, the headings ${headings.length}`,
      });
  }
  return { rows, faults };
};

const headingFaults = (headings: readonly string[]): CsvFault[] =>
  headings.flatMap((heading, i) => {
    if (heading === "") return [{ line: 1, column: null, reason: `column ${i + 1} has no heading` }];
    const isTwice = headings.slice(0, i).some((other) => normal(other) === normal(heading));
    return isTwice ? [{ line: 1, column: heading, reason: "this heading stands there twice" }] : [];
  });

/** Reads a CSV text. Never throws: what is wrong stands in the faults. */
export const csvTable = (text: string): CsvTable => {
  const delimiter = delimiterOf(text.replace(/^\uFEFF/, ""));
  let records: readonly ParsedRecord[] = [];
  try {
    records = parseText(text, delimiter);
  } catch (error) {
    return { delimiter, headings: [], rows: [], faults: [parseFault(error)] };
  }
  const headings = records[0]?.record ?? [];
  if (headings.length === 0 || isBlank(headings))
    return { delimiter, headings: [], rows: [], faults: [{ line: 1, column: null, reason: "the file is empty" }] };
  const { rows, faults } = rowsOf(records, headings);
  const all = [...headingFaults(headings), ...faults];
  if (records.length > MOST_ROWS + 1)
    all.push({ line: MOST_ROWS + 2, column: null, reason: `the file has more than ${MOST_ROWS} rows: split it` });
  return { delimiter, headings, rows, faults: all };
};
