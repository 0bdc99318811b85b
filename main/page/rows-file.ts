/** A file of rows that a person chose, as it is handed to the service: its bytes, whatever they are, up to a size. */
import { readFileSync, statSync } from "node:fs";
import { basename } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import { MAX_ROWS_FILE, type RowsFile, tooLargeWords } from "../../app/exchange/rows/rows-source.ts";

const because = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Bytes that are there already. Throws "invalid input" where they are too many. */
export const rowsOf = (fileName: string, bytes: Buffer): RowsFile => {
  if (bytes.length > MAX_ROWS_FILE) throw new PlanningError("invalid input", tooLargeWords(fileName, bytes.length));
  return { fileName, base64: bytes.toString("base64") };
};

/** Too large is refused before a byte is read: "invalid input". Throws "storage" where it cannot be read. */
export const readRowsFile = (path: string): RowsFile => {
  const fileName = basename(path);
  try {
    const { size } = statSync(path);
    if (size > MAX_ROWS_FILE) throw new PlanningError("invalid input", tooLargeWords(fileName, size));
    return { fileName, base64: readFileSync(path).toString("base64") };
  } catch (error) {
    if (error instanceof PlanningError) throw error;
    throw new PlanningError("storage", `${fileName} cannot be read: ${because(error)}.`);
  }
};
