/** What the first forecast of a large ledger asks goes through indexes: no scan of the journal, no sorting of it. */
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { NEXT_STATING } from "../../db/journal-reading.ts";
import { LAST_RECORD } from "../../db/ledger-store.ts";
import { LAST_MOVEMENTS, LAST_STATING, POSTED_AFTER } from "../../db/levels.ts";
import { LOWEST_FROM } from "../../db/overdraft.ts";
import { connectionOver } from "../../db/connection.ts";
import { migrate, readMigrations } from "../../db/migrate.ts";

const db = connectionOver(new Sqlite(":memory:"));
migrate(db, readMigrations());

const planOf = (sql: string): string =>
  (db.sqlite.prepare(`EXPLAIN QUERY PLAN ${sql.replaceAll(/\?|@\w+/g, "1")}`).all() as { detail: string }[])
    .map(({ detail }) => detail)
    .join("\n");

test.each([
  ["the last stated level", LAST_STATING, /posting_stating \(account_no=\?\)/],
  ["what was posted since", POSTED_AFTER, /COVERING INDEX posting_by_account \(account_no=\? AND at>\?\)/],
  ["the last movements", LAST_MOVEMENTS, /COVERING INDEX posting_by_account \(account_no=\? AND at>\? AND at<\?\)/],
  ["the instant of the last record", LAST_RECORD, /COVERING INDEX entry_in_force[^]*COVERING INDEX reading_in_force/],
  ["the next stated level", NEXT_STATING, /posting_stating \(account_no=\? AND at>\?\)/],
  ["the lowest level from an instant on", LOWEST_FROM, /posting_by_account \(account_no=\? AND at>\?\)/],
])("%s", (_what, sql, through) => {
  const plan = planOf(sql);
  expect(plan).toMatch(through);
  expect(plan).not.toMatch(/SCAN (p|e|posting|entry)\b(?! USING COVERING INDEX (entry|reading)_in_force)/);
});

test("the last levels and movements are read in the index's order", () => {
  expect(planOf(LAST_STATING)).not.toMatch(/TEMP B-TREE/);
  expect(planOf(LAST_MOVEMENTS)).not.toMatch(/TEMP B-TREE/);
});
