/** The file defends its journal against anyone who writes to it, here by plain SQL past all of the program. */
import Sqlite from "better-sqlite3";
import { beforeEach, describe, expect, test } from "vitest";
import { openLedger } from "../../db/ledger.ts";
import { day, handLedger, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();
let path = "";
let db: Sqlite.Database;

beforeEach(() => {
  const store = handLedger(folder);
  path = store.header().path;
  store.close();
  db = new Sqlite(path);
  db.pragma("foreign_keys = ON");
  return () => db.close();
});

const openEntry = (no: number, reversesNo: number | null = null, at = day(0)) =>
  db
    .prepare(
      `INSERT INTO entry (no, id, at, kind, reverses_no, note, author, recorded_at, state, unsealed_no)
       VALUES (?, ?, ?, ?, ?, '', 'Eve', 0, 'open', ?)`,
    )
    .run(no, `eve-${no}`, at, reversesNo === null ? "transfer" : "reversal", reversesNo, no);
const post = (no: number, line: number, account: number, grams: number, at = day(0)) =>
  db.prepare("INSERT INTO posting VALUES (?, ?, ?, ?, ?, 0)").run(no, line, account, grams, at);
const seal = (no: number, state = "in force") =>
  db.prepare("UPDATE entry SET state = ?, unsealed_no = NULL WHERE no = ?").run(state, no);

describe("sealed", () => {
  test.each([
    ["UPDATE posting SET grams = grams + 1 WHERE entry_no = 1", /append-only/],
    ["DELETE FROM posting WHERE entry_no = 1", /append-only/],
    ["DELETE FROM entry WHERE no = 1", /append-only/],
    ["UPDATE entry SET at = at + 1 WHERE no = 1", /append-only/],
    ["UPDATE entry SET note = 'better' WHERE no = 1", /append-only/],
    ["UPDATE entry SET state = 'open', unsealed_no = 1 WHERE no = 1", /append-only/],
    ["UPDATE entry SET state = 'taken back' WHERE no = 1", /append-only/],
    ["INSERT INTO posting VALUES (1, 9, 1, 5, 1925000000000, 1)", /append-only/],
    ["INSERT OR REPLACE INTO posting VALUES (1, 0, 1, 5, 1924992000000, 1)", /append-only/],
    ["REPLACE INTO entry SELECT * FROM entry WHERE no = 1", /begins open/],
    ["UPDATE account SET owner_id = 'mere-lox' WHERE no = 1", /stays what it is/],
    ["DELETE FROM account WHERE no = 1", /never deleted/],
    ["DELETE FROM tank WHERE id = 'mere-lh2'", /tank with records/],
    ["UPDATE tank SET propellant_id = 'lox' WHERE id = 'mere-lh2'", /keeps its propellant/],
    ["DELETE FROM source WHERE id = 'ground'", /source with records/],
    ["DELETE FROM propellant WHERE id = 'lh2'", /propellant with records/],
    ["INSERT INTO account (kind, owner_id, propellant_id) VALUES ('tank', 'mere-lh2', 'lox')", /its tank holds/],
    ["INSERT INTO account (kind, owner_id, propellant_id, balance_grams) VALUES ('vented', 'mere', 'lox', 5)", /empty/],
    ["UPDATE entry SET state = 'in force' WHERE no = 99", null],
  ])("%s", (sql, refusal) => {
    const before = db.serialize();
    if (refusal === null) expect(db.prepare(sql).run().changes).toBe(0);
    else expect(() => db.prepare(sql).run()).toThrow(refusal);
    expect(db.serialize().equals(before)).toBe(true);
  });
});

describe("a new entry", () => {
  test("cannot be committed open", () => {
    expect(() => openEntry(50)).toThrow(/FOREIGN KEY/);
    db.exec("BEGIN");
    openEntry(50);
    post(50, 0, 1, -5);
    post(50, 1, 2, 5);
    expect(() => db.exec("COMMIT")).toThrow(/FOREIGN KEY/);
    db.exec("ROLLBACK");
  });

  test("cannot be sealed with one posting, or where a propellant does not sum to zero", () => {
    db.exec("BEGIN");
    openEntry(50);
    post(50, 0, 1, 0);
    expect(() => seal(50)).toThrow(/two or more postings/);
    post(50, 1, 2, 5);
    expect(() => seal(50)).toThrow(/sum to zero/);
    // Hydrogen out, oxygen in: zero in sum, not for each.
    post(50, 2, 3, -5);
    expect(() => seal(50)).toThrow(/sum to zero/);
    db.exec("ROLLBACK");
  });

  test("that balances is taken, its balances follow, and then it stands", () => {
    db.exec("BEGIN");
    openEntry(50);
    post(50, 0, 1, -5);
    post(50, 1, 2, 5);
    seal(50);
    db.exec("COMMIT");
    expect(() => post(50, 2, 1, 0)).toThrow(/append-only/);
    db.close();
    const store = openLedger(path);
    expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(999.995);
    // The books follow it; that the program did not write it is seen by the digests.
    expect(store.verify()).toMatchObject({ isSound: false, entries: 3 });
    store.close();
    db = new Sqlite(path);
  });
});

describe("a counter-entry", () => {
  test("mirrors what it takes back, at its instant, once", () => {
    db.exec("BEGIN");
    expect(() => openEntry(50, 1, day(1))).toThrow(/own instant/);
    openEntry(50, 1);
    post(50, 0, 1, -5);
    post(50, 1, 2, 5);
    expect(() => seal(50, "counter")).toThrow(/exactly what the entry wrote/);
    post(50, 2, 1, 5 - 1_000_000);
    post(50, 3, 2, 1_000_000 - 5);
    expect(() => seal(50)).toThrow(/append-only/);
    seal(50, "counter");
    expect(db.prepare("SELECT state FROM entry WHERE no = 1").pluck().get()).toBe("taken back");
    expect(() => openEntry(51, 1)).toThrow(/in force/);
    db.exec("COMMIT");
  });
});

test("a balance changed behind the triggers' back is found by the check of the file", () => {
  db.exec("UPDATE account SET balance_grams = balance_grams + 7 WHERE no = 1");
  db.close();
  const store = openLedger(path);
  expect(store.verify()).toMatchObject({ isSound: false });
  expect(store.verify().faults.join()).toMatch(/kept balance of (tank\/mere-lh2|source\/ground)/);
  store.close();
  db = new Sqlite(path);
});

test("what was forced in without foreign keys and triggers is found by the check of the file", () => {
  db.pragma("foreign_keys = OFF");
  db.exec("DROP TRIGGER posting_stands; UPDATE posting SET grams = grams + 1 WHERE entry_no = 1 AND line = 0");
  openEntry(77);
  db.close();
  const store = openLedger(path);
  const { faults, isSound } = store.verify();
  expect(isSound).toBe(false);
  expect(faults.join("\n")).toMatch(/does not balance: lh2 sums to 1 g/);
  expect(faults.join("\n")).toMatch(/eve-77 was never finished/);
  store.close();
  db = new Sqlite(path);
});
