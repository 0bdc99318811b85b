/** A pinned as-of instant before records that exist: the plan stands as it was known then, and says how much is left out. */
import { afterAll, expect, it } from "vitest";
import { forecast } from "../../../app/forecast/forecast.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { recordArrival } from "../../../app/records/record-arrival.ts";
import { recordDeparture } from "../../../app/records/record-departure.ts";
import { recordLoss } from "../../../app/records/record-loss.ts";
import { recordStandDown } from "../../../app/records/record-stand-down.ts";
import { recordReading } from "../../../app/records/record-reading.ts";
import { lookBackSentence } from "../../../app/ledger/look-back-words.ts";
import { day, handLedger, recorder, stepWith, temporaryFolder } from "../records/hand-ledger.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
afterAll(() => open.forEach((store) => store.close()));

/** Drover 1 left on day 10 and its handover ran from day 15 to day 17; a gauge was read on day 16 and not booked. */
const recorded = (sinceAt: number | undefined): LedgerStore => {
  const store = handLedger(folder);
  open.push(store);
  const loads = [{ propellantId: "lh2", loadedKg: 500 }];
  store.commit(recordDeparture(store, { flightId: "base.drover-1", at: day(10), loads, note: "" }, recorder));
  const gauge = {
    id: "gauge",
    tankId: "mere-lox",
    at: day(16),
    massKg: 4000,
    sigmaKg: 5,
    takeIntoBooks: false,
    note: "",
  };
  store.commit(recordReading(store, gauge, recorder));
  const taken = [{ tankId: "mere-lh2", massKg: 500 }];
  const nothing = { handoverLoss: [], leftAboard: [], vented: [], note: "" };
  const times = { at: day(17), ...(sinceAt === undefined ? {} : { sinceAt }) };
  store.commit(recordArrival(store, { flightId: "base.drover-1", ...times, taken, ...nothing }, recorder));
  return store;
};

it("leaves later records out, has their flights under way again, and counts events, not entries", () => {
  const store = recorded(day(15));
  const pinned = planView(store, "base", day(12));
  expect(pinned.plan.lookBack).toEqual({ leftOut: 2, lastAt: day(17) });
  expect(pinned.plan.flights[0]!.status).toBe("departed");
  expect(pinned.readings).toEqual([]);
  expect(lookBackSentence(pinned.plan)).toBe(
    "Looking back: this is what was known on 2031-01-13 00:00 UTC. 2 later records, the last of 2031-01-18 00:00 UTC, are left out.",
  );
  const earlier = planView(store, "base", day(9));
  expect(earlier.plan.lookBack?.leftOut).toBe(3);
  expect(earlier.plan.flights[0]!.status).toBe("planned");
});

it("is nothing where the as-of instant follows the records, or stands after them", () => {
  const store = recorded(undefined);
  expect(planView(store, "base").plan.lookBack).toBeUndefined();
  expect(planView(store, "base", day(30)).plan.lookBack).toBeUndefined();
});

it("has the same plan and levels as before the record was made, in the midst of a metered handover too", () => {
  const store = recorded(day(15));
  store.commit(stepWith({ asOfAt: day(16) }));
  const { plan } = planView(store, "base");
  expect(plan.lookBack?.leftOut).toBe(1);
  const before = handLedger(folder);
  open.push(before);
  const loads = [{ propellantId: "lh2", loadedKg: 500 }];
  before.commit(recordDeparture(before, { flightId: "base.drover-1", at: day(10), loads, note: "" }, recorder));
  const then = planView(before, "base", day(16)).plan;
  const closing = (of: typeof plan) => forecast(of).losses.map(({ tankId, closingKg }) => [tankId, closingKg]);
  expect(closing(plan)).toEqual(closing(then));
});

it("a sortie that stood down and a flight lost before it left move no mass, and are records all the same", () => {
  const store = handLedger(folder);
  open.push(store);
  store.commit(recordStandDown(store, { sortieId: "base.first", at: day(12), note: "Weather" }, recorder));
  // The as-of instant follows to when it was known, not to the day that it was planned for.
  expect(store.header().lastRecordAt).toBe(day(12));
  store.commit(recordLoss(store, { flightId: "base.drover-1", at: day(14), note: "" }, recorder));
  expect(store.header().lastRecordAt).toBe(day(14));
  expect(planView(store, "base").plan).toMatchObject({ asOfAt: day(14), sorties: [{ status: "stood down" }] });
  const between = planView(store, "base", day(13)).plan;
  expect(between.lookBack).toEqual({ leftOut: 1, lastAt: day(14) });
  expect([between.sorties[0]!.status, between.flights[0]!.status]).toEqual(["stood down", "planned"]);
  const before = planView(store, "base", day(11)).plan;
  expect(before.lookBack?.leftOut).toBe(2);
  expect(before.sorties[0]!.status).toBe("planned");
  store.undo("Ada", day(15));
  store.undo("Ada", day(15));
  expect(planView(store, "base").plan.sorties[0]!.status).toBe("planned");
  expect(store.header().lastRecordAt).toBe(day(0));
});

it("where no record says when a sortie stood down, it stood down at every instant", () => {
  const store = handLedger(folder);
  open.push(store);
  const [sortie] = store.entitiesOfCase("base").sortie;
  store.commit(
    stepWith({
      changes: [{ op: "put", kind: "sortie", value: { ...sortie!, status: "stood down", stoodDownAt: null } }],
    }),
  );
  for (const at of [day(1), day(50)]) {
    const { plan } = planView(store, "base", at);
    expect([plan.sorties[0]!.status, plan.lookBack]).toEqual(["stood down", undefined]);
  }
});
