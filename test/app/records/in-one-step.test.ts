/** Several records as one step: the books are those of one after the other, and one undo takes all of it back. */
import { afterAll, expect, it } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { bookingWords, bookReadings } from "../../../app/records/book-readings.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import { recordSteps } from "../../../app/records/preview.ts";
import { glance } from "../../../app/supply/glance.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { day, handLedger, handPlan, recorder, stepWith, temporaryFolder } from "./hand-ledger.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
const fresh = (): LedgerStore => {
  const store = handLedger(folder);
  open.push(store);
  return store;
};
afterAll(() => open.forEach((store) => store.close()));

const departure = {
  flightId: "base.drover-1",
  at: day(10),
  loads: [{ propellantId: "lh2", loadedKg: 500 }],
  note: "",
};
const arrival = {
  flightId: "base.drover-1",
  at: day(15),
  taken: [{ tankId: "mere-lh2", massKg: 480 }],
  handoverLoss: [{ propellantId: "lh2", massKg: 12 }],
  leftAboard: [],
  vented: [],
  note: "",
};
const reading = (id: string, at: number, massKg: number, tankId = "mere-lh2") => ({
  id,
  tankId,
  at,
  massKg,
  sigmaKg: 5,
  entryId: null,
  isWithdrawn: false,
  note: "",
});
const accounts = ["tank/mere-lh2", "transit/drover-1", "in-flight loss/drover", "boil-off/mere", "unaccounted/mere"];
const balances = (store: LedgerStore) => accounts.map((id) => store.balanceKg(id, "lh2"));

it("an arrival without a record of its departure is refused, and taken with it as one step", () => {
  const apart = fresh();
  expect(() => recordSteps["record.arrival"](apart, arrival, recorder)).toThrow(PlanningError);
  apart.commit(recordSteps["record.departure"](apart, departure, recorder));
  apart.commit(recordSteps["record.arrival"](apart, arrival, recorder));
  const store = fresh();
  const before = { document: store.document(), revision: store.header().revision };
  const step = recordSteps["record.arrival"](store, { ...arrival, departure }, recorder);
  // Making a step changes nothing.
  expect(store.document()).toEqual(before.document);
  store.commit(step);
  expect(store.entities().flight.map(({ status, departAt, arriveAt }) => ({ status, departAt, arriveAt }))).toEqual(
    apart.entities().flight.map(({ status, departAt, arriveAt }) => ({ status, departAt, arriveAt })),
  );
  expect(balances(store)).toEqual(balances(apart));
  expect(store.header().undoLabel).toBe("Drover 1 departed; Drover 1 arrived");
  store.undo("Ada", day(300));
  expect(store.entities()).toEqual(before.document.entities);
  expect(balances(store)).toEqual([1000, 0, 0, 0, 0]);
});

it("a return is taken with its loading", () => {
  const store = fresh();
  const drawn = [{ tankId: "mere-lh2", massKg: 300 }];
  const loading = { sortieId: "base.first", at: day(30), drawn, handoverLoss: [], note: "" };
  const home = { sortieId: "base.first", at: day(40), aboard: [{ propellantId: "lh2", massKg: 20 }], note: "" };
  expect(() => recordSteps["record.return"](store, home, recorder)).toThrow(/planned/);
  store.commit(recordSteps["record.return"](store, { ...home, loading }, recorder));
  expect(store.entities().sortie.map(({ status }) => status)).toEqual(["flown", "flown"]);
  expect(store.balanceKg("transit/first", "lh2")).toBe(0);
});

it("a loading that the books cannot give is taken with the arrival that they lack, and its departure", () => {
  const store = fresh();
  const tank = { kind: "tank" as const, ownerId: "mere-lh2" };
  const vented = { kind: "vented" as const, ownerId: "mere" };
  const postings = [
    { account: tank, propellantId: "lh2", grams: -900_000 },
    { account: vented, propellantId: "lh2", grams: 900_000 },
  ];
  const entry = { id: "vent", at: day(20), kind: "vent" as const, subjectKey: null, note: "", postings };
  store.commit(recordEntry(store, entry, recorder));
  const drawn = [{ tankId: "mere-lh2", massKg: 300 }];
  const loading = { sortieId: "base.first", at: day(30), drawn, handoverLoss: [], note: "" };
  // 100 kg are left by the books.
  expect(() => store.commit(recordSteps["record.loading"](store, loading, recorder))).toThrow(/would hold -200 kg/);
  store.commit(recordSteps["record.loading"](store, { ...loading, arrivals: [{ ...arrival, departure }] }, recorder));
  expect(store.entities().flight.map(({ status }) => status)).toEqual(["arrived", "arrived"]);
  expect(store.entities().sortie.map(({ status }) => status)).toEqual(["departed", "departed"]);
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(280);
  store.undo("Ada", day(300));
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(100);
});

it("a departure from a depot whose books lack an arrival is taken with it, and its departure", () => {
  const store = fresh();
  const far = { ...handPlan.depot[0]!, id: "far", name: "Far" };
  const onward = {
    ...handPlan.flight[0]!,
    id: "base.onward",
    key: "onward",
    name: "Onward",
    origin: { kind: "depot" as const, depotId: "mere" },
    depotId: "far",
    departAt: day(30),
    arriveAt: day(33),
  };
  const vent = {
    id: "vent",
    at: day(20),
    kind: "vent" as const,
    subjectKey: null,
    note: "",
    postings: [
      { account: { kind: "tank" as const, ownerId: "mere-lh2" }, propellantId: "lh2", grams: -900_000 },
      { account: { kind: "vented" as const, ownerId: "mere" }, propellantId: "lh2", grams: 900_000 },
    ],
  };
  store.commit(
    stepWith({
      changes: [
        { op: "put", kind: "depot", value: far },
        { op: "put", kind: "flight", value: onward },
      ],
    }),
  );
  store.commit(recordEntry(store, vent, recorder));
  const leaves = {
    flightId: "base.onward",
    at: day(30),
    loads: [{ propellantId: "lh2", loadedKg: 300 }],
    drawn: [{ tankId: "mere-lh2", massKg: 300 }],
    note: "",
  };
  // 100 kg are left by the books; Drover 1 brought 480 kg on day 15, of which nothing is recorded.
  expect(() => store.commit(recordSteps["record.departure"](store, leaves, recorder))).toThrow(/would hold -200 kg/);
  const { drawn: _drawn, ...unsaid } = leaves;
  expect(() => recordSteps["record.departure"](store, unsaid, recorder)).toThrow(/cannot have been drawn there/);
  const before = store.document();
  for (const input of [leaves, unsaid]) {
    store.commit(recordSteps["record.departure"](store, { ...input, arrivals: [{ ...arrival, departure }] }, recorder));
    const statuses = store.entities().flight.map(({ id, status }) => `${id} ${status}`);
    expect(statuses).toEqual(expect.arrayContaining(["base.drover-1 arrived", "base.onward departed"]));
    // 100 + 480 − 300, and what left is on its way.
    expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(280);
    expect(store.balanceKg("transit/onward", "lh2")).toBe(300);
    expect(store.verify()).toMatchObject({ isSound: true });
    store.undo("Ada", day(300));
    expect(store.entities()).toEqual(before.entities);
    expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(100);
  }
});

it("books readings in order of time, on top of each other, and before one that stands already", () => {
  const rows = [reading("late", day(20), 800), reading("early", day(5), 900), reading("middle", day(12), 860)];
  const apart = fresh();
  const store = fresh();
  for (const one of [apart, store])
    one.commit(recordSteps["record.reading"](one, { ...gauge("there", day(30), 700), takeIntoBooks: true }, recorder));
  for (const row of rows.toSorted((a, b) => a.at - b.at))
    apart.commit(
      recordSteps["record.reading"](apart, { ...gauge(row.id, row.at, row.massKg), takeIntoBooks: true }, recorder),
    );
  const step = bookReadings(store, rows, "Bring in 3 readings", recorder);
  store.commit(step);
  expect(balances(store)).toEqual(balances(apart));
  expect(store.readings().every(({ entryId }) => entryId !== null)).toBe(true);
  expect(store.verify()).toMatchObject({ isSound: true });
  // 1 000 kg at 1 %/day are 951 kg on day 5; the gauge says 900.
  expect(bookingWords(store.entities(), step)).toMatch(
    /^3 readings booked: Mere lh2 on 2031-01-06 00:00 UTC \(−51\skg unaccounted\)/,
  );
  store.undo("Ada", day(301));
  expect(store.balanceKg("tank/mere-lh2", "lh2")).toBe(700);
});

const gauge = (id: string, at: number, massKg: number, tankId = "mere-lh2") => {
  const { entryId: _entry, isWithdrawn: _withdrawn, ...rest } = reading(id, at, massKg, tankId);
  return rest;
};

it("books no reading of a tank whose books are not open, nor one before they open", () => {
  const store = fresh();
  const tank = { ...handPlan.tank[0]!, id: "new", name: "New tank" };
  store.commit(stepWith({ changes: [{ op: "put", kind: "tank", value: tank }] }));
  expect(() => bookReadings(store, [reading("r", day(5), 62, "new")], "Bring in", recorder)).toThrow(
    /books of New tank are not open/,
  );
  const early = { ...gauge("r", day(-3), 900), takeIntoBooks: false };
  expect(() => recordSteps["record.reading"](store, early, recorder)).toThrow(/books of Mere lh2 open on/);
});

it("opens books that are not open with the first reading of each tank where a source is named, in the same step", () => {
  const store = fresh();
  const tank = { ...handPlan.tank[0]!, id: "new", name: "New tank" };
  store.commit(stepWith({ changes: [{ op: "put", kind: "tank", value: tank }] }));
  // Not in order of time: the earliest opens.
  const rows = [reading("later", day(9), 60, "new"), reading("first", day(5), 62, "new"), reading("old", day(5), 940)];
  const step = bookReadings(store, rows, "Bring in 3 readings", recorder, "ground");
  store.commit(step);
  expect(store.openings().find(({ tankId }) => tankId === "new")).toEqual({ tankId: "new", at: day(5) });
  // 62 kg came from the source; the books stand at the last reading, and what is between is lost or unaccounted.
  expect(store.balanceKg("source/ground", "lh2")).toBe(-1000 - 62);
  expect(store.balanceKg("tank/new", "lh2")).toBe(60);
  expect(store.readings().filter(({ tankId }) => tankId === "new")).toHaveLength(2);
  expect(store.verify()).toMatchObject({ isSound: true });
  expect(bookingWords(store.entities(), step)).toMatch(
    /^The books of New tank open with 62\skg on 2031-01-06 00:00 UTC, as come from Ground\. 3 readings booked: /,
  );
  // One step: undo closes the books again.
  store.undo("Ada", day(301));
  expect(store.openings().map(({ tankId }) => tankId)).not.toContain("new");
  expect(store.balanceKg("source/ground", "lh2")).toBe(-1000);
});

it("opens no books from a source that is not there, nor with a first reading of nothing", () => {
  const store = fresh();
  const tank = { ...handPlan.tank[0]!, id: "new", name: "New tank" };
  store.commit(stepWith({ changes: [{ op: "put", kind: "tank", value: tank }] }));
  const rows = [reading("first", day(5), 0, "new"), reading("later", day(9), 60, "new")];
  expect(() => bookReadings(store, rows, "Bring in", recorder, "nowhere")).toThrow(/no source/);
  expect(() => bookReadings(store, rows, "Bring in", recorder, "ground")).toThrow(/New tank.*0\skg.*first delivery/);
});

it("a level above what the whole volume holds is refused", () => {
  const store = fresh();
  const tank = { ...handPlan.tank[0]!, volumeM3: 20, maximumFillKg: 1373 };
  store.commit(stepWith({ changes: [{ op: "put", kind: "tank", value: tank }] }));
  // 20 m³ of hydrogen at 70.8 kg/m³ are 1 416 kg.
  const full = { ...gauge("r", day(5), 1417), takeIntoBooks: false };
  expect(() => recordSteps["record.reading"](store, full, recorder)).toThrow(/1\.42\st with its whole volume full/);
  store.commit(recordSteps["record.reading"](store, { ...full, massKg: 1415 }, recorder));
});

it("losses of one case alone that begin before the latest record are a finding", () => {
  const store = fresh();
  const [period] = handPlan.lossPeriod;
  const findings = () => {
    const { plan } = planView(store, "other");
    return glance(plan, forecast(plan)).findings.filter(({ kind }) => kind === "backdated loss");
  };
  const put = (fromAt: number): void =>
    store.commit(
      stepWith({
        changes: [
          {
            op: "put",
            kind: "lossPeriod",
            value: { ...period!, id: "own", planCaseId: "other", fromAt, untilAt: day(60) },
          },
        ],
      }),
    );
  put(day(10));
  expect(findings()).toEqual([]);
  store.commit(recordSteps["record.reading"](store, { ...gauge("r", day(20), 800), takeIntoBooks: true }, recorder));
  expect(findings()).toEqual([{ kind: "backdated loss", periodId: "own", tankId: "mere-lh2", recordAt: day(20) }]);
  put(day(20));
  expect(findings()).toEqual([]);
});
