/** Readings kept in memory are never other than those in the file: after a write, an undo, a rehearsal, another program's write. */
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import type { Reading } from "../../app/ledger/journal.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { day, handLedger, openingOf, stepWith, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();

const readingOf = (id: string): Reading => ({
  id,
  tankId: "mere-lh2",
  at: day(20),
  massKg: 900,
  sigmaKg: 5,
  entryId: null,
  isWithdrawn: false,
  note: "",
});

const ledger = (): LedgerStore => {
  const store = handLedger(folder);
  store.commit(openingOf("mere-lh2", "lh2", 1000, day(1)));
  return store;
};
const idsOf = (store: LedgerStore): readonly string[] => store.readings().map(({ id }) => id);

test("the same list is given while nothing is written, and another after", () => {
  const store = ledger();
  const before = store.readings();
  expect(store.readings()).toBe(before);
  store.commit(stepWith({ readings: [readingOf("a")] }));
  expect(idsOf(store)).toEqual(["a"]);
  store.undo("Ada", day(300));
  expect(idsOf(store)).toEqual([]);
  store.redo("Ada", day(300));
  expect(idsOf(store)).toEqual(["a"]);
  store.close();
});

test("a rehearsal sees what it writes, and nothing of it stays", () => {
  const store = ledger();
  expect(idsOf(store)).toEqual([]);
  const seen = store.rehearse((books) => {
    books.commit(stepWith({ readings: [readingOf("tried")] }));
    return books.readings().map(({ id }) => id);
  });
  expect(seen).toEqual(["tried"]);
  expect(idsOf(store)).toEqual([]);
  store.close();
});

test("what another program writes into the file is seen", () => {
  const store = ledger();
  store.commit(stepWith({ readings: [readingOf("a")] }));
  expect(store.readings()[0]?.note).toBe("");
  const other = new Sqlite(join(store.header().path));
  other.exec("UPDATE reading SET note = 'by hand'");
  other.close();
  expect(store.readings()[0]?.note).toBe("by hand");
  store.close();
});
