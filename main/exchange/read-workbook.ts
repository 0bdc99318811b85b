/** A workbook's sheets as lines of cells: numbers, dates and words as they stand in them. */
import readSheets from "read-excel-file/universal";
import { PlanningError } from "../../app/ground/failure.ts";
import type { SourceCell, SourceLine } from "../../app/exchange/rows/source-table.ts";
import { unpackWorkbook } from "./unpack-workbook.ts";

export interface WorkbookSheet {
  readonly name: string;
  readonly lines: readonly SourceLine[];
  readonly isHidden: boolean;
  readonly hiddenRows: number;
}

/** Throws "invalid input" in words. */
export const readWorkbook = async (bytes: Buffer): Promise<readonly WorkbookSheet[]> => {
  const unpacked = await unpackWorkbook(bytes);
  try {
    const sheets = await readSheets(unpacked.content, { trim: false });
    return sheets.map(({ sheet, data }, sheetIndex) => ({
      name: sheet,
      isHidden: unpacked.isHidden[sheetIndex] ?? false,
      hiddenRows: unpacked.hiddenRows[sheetIndex] ?? 0,
      lines: (data as readonly (readonly SourceCell[])[]).map((cells, index) => ({ line: index + 1, cells })),
    }));
  } catch (error) {
    const why = error instanceof Error ? error.message.slice(0, 120) : "";
    throw new PlanningError(
      "invalid input",
      `The workbook cannot be read (${why}). Save it again from the program that made it, or as CSV.`,
      "content",
    );
  }
};
