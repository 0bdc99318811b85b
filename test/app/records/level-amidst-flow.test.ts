/**
 * A gauge is read while a tanker is still handing over, or at the minute in which it arrives, and the arrival is written down
 * later. What was measured stands: what had flowed in by then is in it, and only what flows afterwards comes on top.
 */
import { afterAll, expect, test } from "vitest";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { recordArrival } from "../../../app/records/record-arrival.ts";
import { recordDeparture } from "../../../app/records/record-departure.ts";
import { recordReading } from "../../../app/records/record-reading.ts";
import { recordReverse } from "../../../app/records/record-reverse.ts";
import { day, handLedger, recorder, temporaryFolder } from "./hand-ledger.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
afterAll(() => open.forEach((store) => store.close()));

/** 500 kg have left for the depot, and its gauge reads 1,000 kg on a day. */
const readOn = (at: number): LedgerStore => {
  const store = handLedger(folder);
  open.push(store);
  const loads = [{ propellantId: "lh2", loadedKg: 500 }];
  store.commit(recordDeparture(store, { flightId: "base.drover-1", at: day(11), loads, note: "" }, recorder));
  const measured = { tankId: "mere-lh2", at, massKg: 1000, sigmaKg: 5 };
  store.commit(recordReading(store, { id: "gauge", ...measured, takeIntoBooks: true, note: "" }, recorder));
  return store;
};

const arrive = (store: LedgerStore, times: { at: number; sinceAt?: number }): void =>
  store.commit(
    recordArrival(
      store,
      {
        flightId: "base.drover-1",
        ...times,
        taken: [{ tankId: "mere-lh2", massKg: 480 }],
        handoverLoss: [],
        leftAboard: [],
        vented: [],
        note: "",
      },
      recorder,
    ),
  );

const levelOn = (store: LedgerStore, at: number) =>
  store.statedLevels().find((row) => row.tankId === "mere-lh2" && row.at === at)?.massKg;

test("a level read in the midst of a handover stands, however late the arrival is recorded", () => {
  const store = readOn(day(19));
  arrive(store, { sinceAt: day(17), at: day(21) });
  expect(levelOn(store, day(19))).toBe(1000);
  // Half of the 480 kg had flowed by then; the other half comes on top.
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(1240);
  expect(store.verify()).toMatchObject({ isSound: true });
});

test("a level read at the very minute of an arrival has in it what arrived, and stands when the arrival is taken back", () => {
  const store = readOn(day(17));
  arrive(store, { at: day(17) });
  expect(levelOn(store, day(17))).toBe(1000);
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(1000);
  const arrival = store.document().entries.find(({ kind }) => kind === "arrival");
  store.commit(recordReverse(store, { entryId: arrival?.id ?? "", reason: "" }, recorder));
  expect(levelOn(store, day(17))).toBe(1000);
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(1000);
});
