/** Two gauge readings of one minute, as when the first was mistyped: taking one back leaves what the other read. */
import { afterAll, expect, test } from "vitest";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { recordReading } from "../../../app/records/record-reading.ts";
import { recordWithdrawal } from "../../../app/records/record-reverse.ts";
import { day, handLedger, recorder, temporaryFolder } from "./hand-ledger.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
afterAll(() => open.forEach((store) => store.close()));

const read = (store: LedgerStore, id: string, at: number, massKg: number): void =>
  store.commit(
    recordReading(store, { id, tankId: "mere-lh2", at, massKg, sigmaKg: 5, takeIntoBooks: true, note: "" }, recorder),
  );
const withdraw = (store: LedgerStore, readingId: string): void =>
  store.commit(recordWithdrawal(store, { readingId, reason: "" }, recorder));
const inBooks = (store: LedgerStore): number => store.balanceKg("tank/mere-lh2", "lh2");
const begin = (): LedgerStore => {
  const store = handLedger(folder);
  open.push(store);
  return store;
};

test.each([
  { goes: "first", stays: 280 },
  { goes: "second", stays: 856 },
])("the $goes of two is taken back: the books hold what the other read", ({ goes, stays }) => {
  const store = begin();
  read(store, "first", day(37), 856);
  read(store, "second", day(37), 280);
  withdraw(store, goes);
  expect(inBooks(store)).toBe(stays);
  expect(store.verify()).toMatchObject({ isSound: true });
});

test("so too after an earlier reading came late, and before a later one, which stands", () => {
  const store = begin();
  read(store, "first", day(37), 856);
  read(store, "second", day(37), 280);
  read(store, "earlier", day(30), 900);
  const after = inBooks(store);
  expect(after).toBe(280);
  read(store, "later", day(40), 250);
  withdraw(store, "first");
  const level = (at: number) =>
    store
      .tankMovements(-1, at)
      .filter(({ tankId }) => tankId === "mere-lh2")
      .at(-1)?.bookKg;
  expect([level(day(30)), level(day(37)), level(day(40))]).toEqual([900, 280, 250]);
  expect(inBooks(store)).toBe(250);
  withdraw(store, "later");
  withdraw(store, "earlier");
  expect(inBooks(store)).toBe(280);
  expect(store.verify()).toMatchObject({ isSound: true });
});
