/** A file or a pasted table, as it is handed over to be read. */
import { z } from "zod";

/** How files of rows end. */
export const rowsEndings = ["csv", "tsv", "txt", "xlsx", "ics"] as const;

/** Bytes of a file of rows: what fits, as base64, into one question of 66 million characters. */
export const MAX_ROWS_FILE = 48_000_000;
/** Why a file of so many bytes is not read. */
export const tooLargeWords = (name: string, size: number): string =>
  `${name} has ${Math.ceil(size / 1e6)} MB; ${MAX_ROWS_FILE / 1e6} MB at most are read at a time. Split it, or keep the rows alone in a file of their own.`;

const MAX_BASE64 = 4 * Math.ceil(MAX_ROWS_FILE / 3);
const MAX_PASTED = 20_000_000;

const fileName = z.string().min(1).max(300);

const rowsFile = z.strictObject({
  fileName,
  /** Its bytes. */
  base64: z
    .string()
    .max(MAX_BASE64, `the file is larger than ${MAX_ROWS_FILE / 1e6} MB, the most that is read at a time`),
});
export type RowsFile = Readonly<z.infer<typeof rowsFile>>;

export const rowsSource = z.union([rowsFile, z.strictObject({ fileName, text: z.string().max(MAX_PASTED) })]);
export type RowsSource = Readonly<z.infer<typeof rowsSource>>;
