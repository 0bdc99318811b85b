/** Turns what SQLite and the operating system report into a failure with words and advice for a person. */
import Sqlite from "better-sqlite3";
import { PlanningError } from "../app/ground/failure.ts";

const advice = (code: string, message: string): PlanningError | null => {
  if (code === "SQLITE_FULL" || code === "ENOSPC" || code === "EDQUOT")
    return new PlanningError(
      "storage",
      "The disk is full. Nothing of this step was written. Make room and do it again.",
    );
  if (code.startsWith("SQLITE_READONLY") || code === "EROFS")
    return new PlanningError("read-only", "The ledger file may not be written. Nothing was changed.");
  if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED"))
    return new PlanningError("storage", "Another program is writing to the ledger file. Wait a moment and try again.");
  // Every statement here is our own and is tried against the form that we write: what it names is missing from the file.
  if (code === "SQLITE_ERROR" && /^(?:no such |malformed )/.test(message))
    return new PlanningError(
      "not a ledger",
      `The ledger file is damaged (${message}). Leave it as it is, and go on with a backup or an exported copy.`,
    );
  if (code === "SQLITE_NOTADB") return new PlanningError("not a ledger", "The file is not a ledger.");
  // SQLite says the same of a page that is spoiled and of one that the disk did not give (EIO).
  if (code.startsWith("SQLITE_CORRUPT"))
    return new PlanningError(
      "not a ledger",
      "The ledger file is damaged, or the disk failed to read it. Open it again; if it comes to this again, leave it as it is, and go on with a backup or an exported copy.",
    );
  if (code.startsWith("SQLITE_IOERR") || code === "EIO")
    return new PlanningError(
      "storage",
      `The disk failed while the ledger was read or written (${code}). The last acknowledged step stands. Check the disk, then open the ledger again.`,
    );
  if (code.startsWith("SQLITE_CANTOPEN") || code === "EACCES" || code === "EPERM")
    return new PlanningError(
      "storage",
      "The file cannot be opened. Check that the folder exists and that you may write there.",
    );
  if (code === "ENOENT") return new PlanningError("storage", "There is no such file. Check the path.");
  if (code === "ENAMETOOLONG")
    return new PlanningError(
      "storage",
      "The name of the file, or its path, is too long for the disk. Choose a shorter one.",
    );
  if (code === "EISDIR") return new PlanningError("storage", "That is a folder, not a file.");
  return null;
};

/** The failure that an error of SQLite or the file system means; errors of other kinds come back as they are. */
export const asFailure = (error: unknown): unknown => {
  if (error instanceof PlanningError || !(error instanceof Error)) return error;
  const code = "code" in error && typeof error.code === "string" ? error.code : "";
  if (error instanceof Sqlite.SqliteError && code === "SQLITE_CONSTRAINT_TRIGGER")
    return new PlanningError("refused", `The ledger refuses this: ${error.message}.`);
  if (error instanceof Sqlite.SqliteError && code === "SQLITE_CONSTRAINT_FOREIGNKEY")
    return new PlanningError("refused", "The ledger refuses this: something refers to what would not exist.");
  if (error instanceof Sqlite.SqliteError && code.startsWith("SQLITE_CONSTRAINT"))
    return new PlanningError("refused", `The ledger refuses this: ${error.message}.`);
  // A cell that should hold JSON and does not: nothing else that db does parses text of the file.
  if (error instanceof SyntaxError)
    return new PlanningError("not a ledger", `The ledger file is damaged: ${error.message}. Go on with a backup.`);
  return advice(code, error.message) ?? error;
};

/** Runs an action on the file; what fails, fails in words. */
export const withStorage = <T>(action: () => T): T => {
  try {
    return action();
  } catch (error) {
    throw asFailure(error);
  }
};
