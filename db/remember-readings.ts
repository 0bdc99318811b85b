/** The gauge readings, kept in memory until this or another program writes: a report asks for all of them time and again. */
import type { Reading } from "../app/ledger/journal.ts";
import type { Connection } from "./connection.ts";
import { readReadings } from "./readings.ts";

/** As often as this connection has written a row, and as often as others have written the file. */
const WRITTEN = "SELECT total_changes() || ' ' || data_version FROM pragma_data_version";

/** `read` answers as {@link readReadings}; the same array for as long as nothing was written. */
export const rememberReadings = (db: Connection): { read(): readonly Reading[] } => {
  let kept: readonly Reading[] | null = null;
  let keptAt = "";
  return {
    read: () => {
      // What a transaction wrote may be taken back, and nothing would show it.
      if (db.sqlite.inTransaction) return readReadings(db);
      const writtenAt = db.prepared(WRITTEN).pluck().get() as string;
      if (kept === null || writtenAt !== keptAt) {
        kept = readReadings(db);
        keptAt = writtenAt;
      }
      return kept;
    },
  };
};
