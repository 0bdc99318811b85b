/** A copy of an open ledger by SQLite's own backup, while edits go on: one state of it, sound, and no log's. */
import Sqlite from "better-sqlite3";
import { PlanningError } from "../app/ground/failure.ts";
import { type Connection, connectionOver } from "./connection.ts";
import { newestFaults } from "./digest-chain.ts";
import { dropMark } from "./log-mark.ts";
import { putNewFileLater } from "./new-file.ts";
import { asFailure } from "./storage-failure.ts";

/** Entries and steps whose digests are looked at in a copy: as many as an opening looks at. */
const NEWEST = 50;

const refuseDamaged = (copy: Connection): void => {
  const checked = copy.sqlite.pragma("quick_check(1)", { simple: true }) as string;
  const [fault] = checked === "ok" ? newestFaults(copy, NEWEST) : [`The file is damaged: ${checked}.`];
  if (fault !== undefined)
    throw new PlanningError("not a ledger", `${fault} No copy was made; the older ones stay as they are.`);
};

/**
 * Throws "not a ledger" where the copy is damaged, "storage" where it cannot be written; then there is no file. A ledger
 * that is closed meanwhile gives no copy either.
 */
export const backUp = async (db: Connection, path: string): Promise<void> => {
  try {
    await putNewFileLater(path, async (draft) => {
      await db.sqlite.backup(draft);
      const copy = connectionOver(new Sqlite(draft));
      try {
        copy.sqlite.pragma("journal_mode = DELETE");
        refuseDamaged(copy);
        copy.write(() => dropMark(copy));
      } finally {
        copy.sqlite.close();
      }
    });
  } catch (error) {
    throw asFailure(error);
  }
};
