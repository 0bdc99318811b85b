-- Digests: of journal entries and edit steps, each over the one before (db/digest-chain.ts). Shipped: never edit.

CREATE TABLE entry_digest (
  entry_no INTEGER PRIMARY KEY REFERENCES entry,
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;

ALTER TABLE edit_step ADD COLUMN digest BLOB CHECK (digest IS NULL OR length(digest) = 32);

-- Over all rows of the plan, readings and settings (db/row-digest.ts).
ALTER TABLE ledger ADD COLUMN rows_digest BLOB CHECK (rows_digest IS NULL OR length(rows_digest) = 32);
