/**
 * A gauge is read while a tanker is still handing over, or at the minute in which it arrives, and the arrival is written down
 * later. What was measured stands: what had flowed in by then is in it, and only what flows afterwards comes on top.
 */
import { afterAll, expect, test } from "vitest";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { levelAt } from "../../../app/forecast/curve.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { recordArrival } from "../../../app/records/record-arrival.ts";
import { recordDeparture } from "../../../app/records/record-departure.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
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

test("a level read at the minute of a draw, after it, is what the forecast has then, whatever else is overdue", () => {
  const store = handLedger(folder);
  open.push(store);
  const vented = [
    { account: { kind: "tank" as const, ownerId: "mere-lh2" }, propellantId: "lh2", grams: -100_000 },
    { account: { kind: "vented" as const, ownerId: "mere" }, propellantId: "lh2", grams: 100_000 },
  ];
  // The tanker that was to arrive on day 15 has no record: all after that is replayed.
  const entry = { id: "vent", at: day(16), kind: "vent" as const, subjectKey: null, note: "", postings: vented };
  store.commit(recordEntry(store, entry, recorder));
  const measured = { tankId: "mere-lh2", at: day(16), massKg: 800, sigmaKg: 5 };
  store.commit(recordReading(store, { id: "gauge", ...measured, takeIntoBooks: true, note: "" }, recorder));
  const { plan } = planView(store, "base");
  expect(plan.replay).toBeDefined();
  const levels = forecast(plan).levels.find(({ tankId }) => tankId === "mere-lh2");
  expect(levelAt(levels?.segments ?? [], day(16))).toBeCloseTo(800, 9);
});

const statedIn = (store: LedgerStore) =>
  store
    .tankMovements(day(18), day(28))
    .flatMap(({ tankId, statedKg }) => (tankId === "mere-lh2" && statedKg !== null ? [statedKg] : []));

test("and so does the level read after it: what the first one took up is not counted again", () => {
  const store = readOn(day(19));
  const measured = { tankId: "mere-lh2", at: day(27), massKg: 1100, sigmaKg: 5 };
  store.commit(recordReading(store, { id: "later", ...measured, takeIntoBooks: true, note: "" }, recorder));
  arrive(store, { sinceAt: day(17), at: day(21) });
  expect(statedIn(store)).toEqual([1000, 1100]);
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(1100);
  const [arrival] = store.document().entries.filter(({ kind }) => kind === "arrival");
  store.commit(recordReverse(store, { entryId: arrival?.id ?? "", reason: "" }, recorder));
  expect(statedIn(store)).toEqual([1000, 1100]);
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(1100);
});

test("a gauge read in the midst of a handover that is recorded already says what is there, part of the flow and all", () => {
  const store = readOn(day(12));
  arrive(store, { sinceAt: day(17), at: day(21) });
  const measured = { tankId: "mere-lh2", at: day(19), massKg: 1100, sigmaKg: 5 };
  store.commit(recordReading(store, { id: "midst", ...measured, takeIntoBooks: true, note: "" }, recorder));
  expect(statedIn(store)).toEqual([1100]);
});
