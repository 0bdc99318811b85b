/** A CSV file as headings and rows with their line numbers: commas, semicolons or tabs, quotes, a byte-order mark. */
import { parse } from "csv-parse/browser/esm/sync";
import { PlanningError } from "../contract/failure.ts";

export interface CsvRow {
  /** Line of the file on which the row ends, from 1. */
  readonly line: number;
  /** Cells by heading, trimmed; headings in lower case. */
  readonly cells: ReadonlyMap<string, string>;
  /** How many cells stand there. */
  readonly width: number;
}

export interface CsvTable {
  readonly headings: readonly string[];
  readonly rows: readonly CsvRow[];
  /** Whether figures may have a decimal comma: only where the comma does not part the cells. */
  readonly hasDecimalComma: boolean;
}

/** At most so many rows in one file. */
export const MOST_ROWS = 20_000;

const delimiterOf = (text: string): string => {
  const first = text.slice(0, Math.max(0, text.search(/\r|\n|$/)));
  const count = (character: string): number => first.split(character).length - 1;
  return [";", "\t"].find((each) => count(each) > 0 && count(each) >= count(",")) ?? ",";
};

interface Parsed {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

/** Throws "invalid input" for a file that is no table, has a heading twice, or is too long. */
export const readTable = (text: string): CsvTable => {
  const delimiter = delimiterOf(text);
  let parsed: readonly Parsed[];
  try {
    parsed = parse(text, {
      bom: true,
      delimiter,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: 100_000,
      to: MOST_ROWS + 2,
    }) as unknown as readonly Parsed[];
  } catch (error) {
    throw new PlanningError(
      "invalid input",
      `This is not a CSV table: ${error instanceof Error ? error.message.slice(0, 200) : ""}`,
      "text",
    );
  }
  const [head, ...body] = parsed;
  if (head === undefined) throw new PlanningError("invalid input", "The file is empty.", "text");
  if (body.length > MOST_ROWS)
    throw new PlanningError("invalid input", `The file has more than ${MOST_ROWS} rows; split it.`, "text");
  const headings = head.record.map((cell) => cell.toLowerCase());
  const twice = headings.find((heading, index) => heading !== "" && headings.indexOf(heading) !== index);
  if (twice !== undefined)
    throw new PlanningError("invalid input", `The column “${twice.slice(0, 40)}” stands there twice.`, "text");
  return {
    headings,
    hasDecimalComma: delimiter !== ",",
    rows: body.map(({ record, info }) => ({
      line: info.lines,
      width: record.length,
      cells: new Map(headings.map((heading, index) => [heading, record[index] ?? ""])),
    })),
  };
};
