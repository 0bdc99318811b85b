/** A ledger whose own description was spoiled: SQLite takes it, and what is asked of it is not there. */
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { openLedger } from "../../db/ledger.ts";
import { handLedger, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();

test.each([
  [
    "a column by another name",
    "UPDATE sqlite_schema SET sql = replace(sql, 'fluid', 'flvid') WHERE name = 'propellant'",
  ],
  [
    "a table by another name",
    "UPDATE sqlite_schema SET name = 'tanc', tbl_name = 'tanc', sql = replace(sql, 'TABLE tank', 'TABLE tanc') WHERE name = 'tank' AND type = 'table'",
  ],
])("%s is a damaged ledger, said in words", (_what, sql) => {
  const store = handLedger(folder);
  const { path } = store.header();
  store.close();
  const db = new Sqlite(path);
  db.unsafeMode(true);
  db.pragma("writable_schema = ON");
  expect(db.prepare(sql).run().changes).toBe(1);
  db.close();
  const read = (): void => {
    const opened = openLedger(path);
    try {
      opened.document();
    } finally {
      opened.close();
    }
  };
  expect(read).toThrow(
    expect.objectContaining({ code: "not a ledger", message: expect.stringMatching(/damaged.*\.$/) }),
  );
});
