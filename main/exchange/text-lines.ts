/** Text as lines of cells: commas, semicolons, tabs or bars, quotes, a byte-order mark (RFC 4180 and its relatives). */
import { parse } from "csv-parse/sync";
import { PlanningError } from "../../app/ground/failure.ts";
import type { Separator } from "../../app/ledger/column-mapping.ts";
import { separatorCharacters } from "../../app/exchange/rows/separator.ts";
import { MAX_ROWS, type SourceLine } from "../../app/exchange/rows/source-table.ts";

const inWords = (error: unknown): string => {
  const words = error instanceof Error ? error.message : "";
  const line = /line (\d+)/i.exec(words)?.[1];
  const place = line === undefined ? "" : ` (line ${line})`;
  if (/quote/i.test(words))
    return `A quotation mark is opened and never closed, or stands in the middle of a cell${place}. Close it, or double it where it is meant as it stands.`;
  if (/max_record_size|maximum/i.test(words))
    return `A row is longer than can be meant${place}: is a quotation mark open?`;
  return `This is no table of text${place}.`;
};

/** Throws "invalid input" for text that is no table, or has far too many lines. */
export const linesOfText = (text: string, separator: Separator): readonly SourceLine[] => {
  try {
    return parse(text, {
      bom: true,
      delimiter: separatorCharacters[separator],
      // One object a line: all that else is known of it would be kept for every line until the last is read.
      on_record: ((cells: readonly string[], { lines }: { readonly lines: number }): SourceLine => ({
        line: lines,
        cells,
      })) as never,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      max_record_size: 100_000,
      to: MAX_ROWS + 20,
    }) as unknown as readonly SourceLine[];
  } catch (error) {
    throw new PlanningError("invalid input", inWords(error), "content");
  }
};
