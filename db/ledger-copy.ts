/** A whole copy of an open ledger as a new file, out of what its connection sees: also when the file under it has gone. */
import Sqlite from "better-sqlite3";
import { existsSync } from "node:fs";
import { PlanningError } from "../app/ground/failure.ts";
import { type Connection, connectionOver } from "./connection.ts";
import { dropMark } from "./log-mark.ts";
import { putNewFile } from "./new-file.ts";

/**
 * Throws "storage" if there is a file of that name or none can be made; "not a ledger", and leaves no file, if `check`
 * finds faults in the copy.
 */
export const copyLedger = (db: Connection, path: string, check: (copy: Connection) => readonly string[]): void => {
  if (existsSync(path))
    throw new PlanningError("storage", "There is a file of that name already. Choose another name.", "path");
  putNewFile(path, (draft) => {
    db.sqlite.prepare("VACUUM INTO ?").run(draft);
    const copy = connectionOver(new Sqlite(draft));
    try {
      const [fault] = check(copy);
      if (fault !== undefined)
        throw new PlanningError(
          "not a ledger",
          `What is in hand cannot be read whole any more. ${fault} No copy was made.`,
        );
      copy.write(() => dropMark(copy));
      copy.sqlite.pragma("journal_mode = WAL");
    } finally {
      copy.sqlite.close();
    }
  });
};
