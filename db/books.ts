/** The digest of the books: that of the last journal entry, which stands for every entry before it. */
import type { Books } from "../app/ledger/ledger-view.ts";
import type { Connection } from "./connection.ts";

const NO_BOOKS = "0".repeat(64);

/** The books as they stand. */
export const readBooks = (db: Connection): Books => {
  const last = db
    .prepared("SELECT lower(hex(digest)) AS digest FROM entry_digest ORDER BY entry_no DESC LIMIT 1")
    .get() as { digest: string } | undefined;
  const entries = db.prepared("SELECT count(*) FROM entry_digest").pluck().get() as number;
  return { entries, digest: last?.digest ?? NO_BOOKS };
};

/** The books whose digest begins so, as far as they went; null: there were none, or more than one. */
export const findBooks = (db: Connection, beginning: string): Books | null => {
  const found = db
    .prepared(
      `SELECT lower(hex(d.digest)) AS digest, (SELECT count(*) FROM entry_digest e WHERE e.entry_no <= d.entry_no) AS entries
       FROM entry_digest d WHERE lower(hex(d.digest)) LIKE ? || '%' LIMIT 2`,
    )
    .all(beginning) as Books[];
  return found.length === 1 ? (found[0] ?? null) : null;
};
