/** Records of flights and sorties put right as one step, worked by hand: 1,000 kg of hydrogen at 1 %/day, m = m0·e^(−k·t). */
import { afterAll, describe, expect, test } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { EntryKind } from "../../../app/ledger/journal.ts";
import { previewRecord, recordSteps } from "../../../app/records/preview.ts";
import { recordCorrection } from "../../../app/records/record-correct.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import type { RecordInput, RecordName } from "../../../app/records/record-input.ts";
import { recordReverse } from "../../../app/records/record-reverse.ts";
import { type RecordedAs, recordedAs } from "../../../app/records/recorded-as.ts";
import { balances, kgOn, merge, twoSites } from "../merge/sites.ts";
import { day, handLedger, handPlan, recorder, stepWith, temporaryFolder } from "./hand-ledger.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
afterAll(() => open.forEach((store) => store.close()));
const fresh = (): LedgerStore => {
  const store = handLedger(folder);
  open.push(store);
  return store;
};

const record = <N extends RecordName>(store: LedgerStore, name: N, input: RecordInput<N>): void =>
  store.commit(recordSteps[name](store, input, recorder));
const depart = (store: LedgerStore, at = day(11), kg = 500): void =>
  record(store, "record.departure", {
    flightId: "base.drover-1",
    at,
    loads: [{ propellantId: "lh2", loadedKg: kg }],
    note: "",
  });
const lh2 = (massKg: number) => [{ propellantId: "lh2", massKg }];
const arrive = (store: LedgerStore, times: { at: number; sinceAt?: number } = { at: day(17) }): void =>
  record(store, "record.arrival", {
    flightId: "base.drover-1",
    ...times,
    taken: [{ tankId: "mere-lh2", massKg: 480 }],
    handoverLoss: lh2(12),
    leftAboard: lh2(3),
    vented: [],
    note: "at the second port",
  });
const load = (store: LedgerStore, key = "first", at = day(30), kg = 310): void =>
  record(store, "record.loading", {
    sortieId: `base.${key}`,
    at,
    drawn: [{ tankId: "mere-lh2", massKg: kg }],
    handoverLoss: lh2(10),
    note: "",
  });
const home = (store: LedgerStore, key = "first", at = day(40), kg = 20): void =>
  record(store, "record.return", { sortieId: `base.${key}`, at, aboard: lh2(kg), note: "" });
const read = (store: LedgerStore, at: number, massKg: number, id = `r-${at}`): void =>
  record(store, "record.reading", { id, tankId: "mere-lh2", at, massKg, sigmaKg: 5, takeIntoBooks: true, note: "" });
const vent = (store: LedgerStore, at: number, kg: number): void =>
  store.commit(
    recordEntry(
      store,
      {
        id: recorder.newId(),
        at,
        kind: "vent",
        subjectKey: null,
        note: "",
        postings: [
          { account: { kind: "tank", ownerId: "mere-lh2" }, propellantId: "lh2", grams: -kg * 1000 },
          { account: { kind: "vented", ownerId: "mere" }, propellantId: "lh2", grams: kg * 1000 },
        ],
      },
      recorder,
    ),
  );

const standing = (store: LedgerStore, kind: EntryKind, key = "drover-1"): string => {
  const { entries } = store.document();
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  return entries.find((row) => row.kind === kind && row.subjectKey === key && !gone.has(row.id))?.id ?? "";
};
type Changes = Readonly<Record<string, unknown>>;
const right = (store: LedgerStore, entryId: string, changes: Changes): RecordedAs => {
  const recorded = recordedAs(store, entryId, "base");
  return { ...recorded, input: { ...recorded.input, ...changes } } as RecordedAs;
};
const stepOf = (store: LedgerStore, entryId: string, changes: Changes) => {
  const { record: name, input } = right(store, entryId, changes);
  return recordCorrection(
    store,
    { wrong: { kind: "entry", id: entryId }, reason: "misread" },
    (books, own) => recordSteps[name](books, input as never, own),
    recorder,
  );
};
const correct = (store: LedgerStore, entryId: string, changes: Changes): void =>
  store.commit(stepOf(store, entryId, changes));
const on = (store: LedgerStore, account: string, propellant = "lh2") => store.balanceKg(account, propellant);
const levelOn = (store: LedgerStore, at: number) =>
  store
    .tankMovements(-1, at)
    .filter(({ tankId }) => tankId === "mere-lh2")
    .at(-1)?.bookKg;
const refusal = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return error.message;
    throw error;
  }
  throw new Error("nothing was refused");
};

describe("an arrival", () => {
  test("is read back as it was recorded, and put right in both plan cases as one step with its name", () => {
    const store = fresh();
    depart(store);
    arrive(store);
    const id = standing(store, "arrival");
    expect(recordedAs(store, id, "other")).toEqual({
      record: "record.arrival",
      input: {
        flightId: "other.drover-1",
        at: day(17),
        taken: [{ tankId: "mere-lh2", massKg: 480 }],
        handoverLoss: lh2(12),
        leftAboard: lh2(3),
        vented: [],
        note: "at the second port",
      },
    });
    const { input } = right(store, id, { at: day(18), taken: [{ tankId: "mere-lh2", massKg: 450 }] });
    const seen = previewRecord(store, "record.arrival", input as RecordInput<"record.arrival">, recorder, {
      kind: "entry",
      id,
    });
    expect(seen.correction?.reversed.map((row) => row.id)).toEqual([id]);
    // The last record is the arrival: before, day 17 is looked at as well; by day 18 the model has lost 1,000·(1 − e^(−0.18)).
    const [, later] = seen.correction?.levels ?? [];
    expect(later?.at).toBe(day(18));
    expect(later?.afterKg).toBeCloseTo(1000 * Math.exp(-0.18) + 450, 2);
    correct(store, id, { at: day(18), taken: [{ tankId: "mere-lh2", massKg: 450 }] });
    expect(on(store, "tank/mere-lh2")).toBe(1450);
    expect(on(store, "in-flight loss/drover")).toBe(35);
    expect(on(store, "transit/drover-1")).toBe(0);
    expect(store.entities().flight.map(({ status, arriveAt }) => [status, arriveAt])).toEqual([
      ["arrived", day(18)],
      ["arrived", day(18)],
    ]);
    const [step] = store.history(0, 1);
    expect(step).toMatchObject({ label: "Correct arrival of Drover 1", reason: "misread" });
    expect(step?.changes.filter((line) => line.startsWith("journal entry, arrival"))).toHaveLength(2);
    store.undo("Ada", day(301));
    expect(on(store, "tank/mere-lh2")).toBe(1480);
    expect(store.entities().flight.map(({ arriveAt }) => arriveAt)).toEqual([day(17), day(17)]);
    expect(store.verify()).toMatchObject({ isSound: true });
  });

  test("can be put right twice; the entry that was reversed says that it was", () => {
    const store = fresh();
    depart(store);
    arrive(store);
    const first = standing(store, "arrival");
    correct(store, first, { taken: [{ tankId: "mere-lh2", massKg: 450 }] });
    correct(store, standing(store, "arrival"), { taken: [{ tankId: "mere-lh2", massKg: 460 }] });
    expect(on(store, "tank/mere-lh2")).toBe(1460);
    expect(refusal(() => stepOf(store, standing(store, "arrival"), { at: day(9) }))).toMatch(/cannot arrive before/);
    expect(refusal(() => recordedAs(store, first))).toMatch(/reversed already\. Put right the one that stands/);
  });

  test("that later drafts lived on may be taken out on the way, and not in the end", () => {
    const store = fresh();
    depart(store);
    arrive(store);
    vent(store, day(20), 1100);
    const id = standing(store, "arrival");
    expect(refusal(() => stepOf(store, id, { taken: [{ tankId: "mere-lh2", massKg: 50 }] }))).toMatch(
      /Mere lh2 would hold -50 kg/,
    );
    correct(store, id, { taken: [{ tankId: "mere-lh2", massKg: 470 }] });
    expect(on(store, "tank/mere-lh2")).toBe(370);
  });

  test("before the books open is refused, and says when they do", () => {
    const store = fresh();
    depart(store, day(-9));
    arrive(store, { at: day(5) });
    expect(refusal(() => stepOf(store, standing(store, "arrival"), { at: day(-1) }))).toMatch(
      /books of Mere lh2 open on 2031-01-01 00:00 UTC/,
    );
  });

  test("that was metered over days keeps a level that was read in its midst", () => {
    const store = fresh();
    depart(store);
    read(store, day(19), 1000);
    arrive(store, { sinceAt: day(17), at: day(21) });
    expect(levelOn(store, day(21))).toBe(1240);
    const id = standing(store, "arrival");
    expect(recordedAs(store, id).input).toMatchObject({ sinceAt: day(17), at: day(21) });
    correct(store, id, { taken: [{ tankId: "mere-lh2", massKg: 400 }] });
    // Half of the 400 kg had flowed by the reading; the other half comes on top.
    expect([levelOn(store, day(19)), levelOn(store, day(21))]).toEqual([1000, 1200]);
    expect(on(store, "in-flight loss/drover")).toBe(85);
  });

  test("before a closing that booked boil-off by the model is refused where the tank moves, and says what to do", () => {
    const store = fresh();
    depart(store);
    arrive(store);
    record(store, "record.closing", { depotId: "mere", at: day(31), measured: [], note: "" });
    const id = standing(store, "arrival");
    expect(refusal(() => stepOf(store, id, { taken: [{ tankId: "mere-lh2", massKg: 450 }] }))).toMatch(
      /closed on 2031-02-01 00:00 UTC, with boil-off of Mere lh2 .* Reverse that closing first/,
    );
    // What does not touch the tank does not touch the closing.
    correct(store, id, { handoverLoss: lh2(10) });
    expect(on(store, "in-flight loss/drover")).toBe(7);
    const closing = store.document().entries.find(({ kind }) => kind === "closing")?.id ?? "";
    store.commit(recordReverse(store, { entryId: closing, reason: "" }, recorder));
    correct(store, standing(store, "arrival"), { taken: [{ tankId: "mere-lh2", massKg: 450 }] });
    expect(on(store, "tank/mere-lh2")).toBe(1450);
  });

  test("before a closing that measured the tank leaves the measured level, and books the loss anew", () => {
    const store = fresh();
    depart(store);
    arrive(store);
    const measured = [{ tankId: "mere-lh2", massKg: 1100, sigmaKg: 5 }];
    record(store, "record.closing", { depotId: "mere", at: day(31), measured, note: "" });
    correct(store, standing(store, "arrival"), { taken: [{ tankId: "mere-lh2", massKg: 450 }] });
    expect(on(store, "tank/mere-lh2")).toBe(1100);
    const model = (1000 * Math.exp(-0.17) + 450) * Math.exp(-0.14);
    expect(on(store, "unaccounted/mere")).toBeCloseTo(model - 1100, 2);
    expect(on(store, "boil-off/mere")).toBeCloseTo(1450 - model, 2);
  });

  test("put right at one site is put right at the other, once merged", () => {
    const { north, south } = twoSites(folder, (site) => {
      depart(site.store);
      arrive(site.store);
    });
    correct(north.store, standing(north.store, "arrival"), { taken: [{ tankId: "mere-lh2", massKg: 450 }] });
    merge(south, north);
    expect([...balances(south)]).toEqual([...balances(north)]);
    // After a merge it can be put right again, here.
    correct(south.store, standing(south.store, "arrival"), { at: day(19) });
    expect(kgOn(south, "tank/mere-lh2")).toBe(1450);
    expect(south.store.entities().flight.map(({ arriveAt }) => arriveAt)).toEqual([day(19), day(19)]);
    north.store.close();
    south.store.close();
  });
});

describe("a departure", () => {
  test("put right keeps the length of its way, and what it carries follows", () => {
    const store = fresh();
    depart(store);
    correct(store, standing(store, "departure"), { at: day(12), loads: [{ propellantId: "lh2", loadedKg: 520 }] });
    expect(on(store, "transit/drover-1")).toBe(520);
    expect(store.entities().flight.map(({ status, departAt, arriveAt }) => [status, departAt, arriveAt])).toEqual([
      ["departed", day(12), day(17)],
      ["departed", day(12), day(17)],
    ]);
  });

  test("whose flight has arrived or was lost since is refused, with what to do first", () => {
    const store = fresh();
    depart(store);
    arrive(store);
    expect(refusal(() => stepOf(store, standing(store, "departure"), { at: day(20) }))).toMatch(
      /Drover 1 arrived by a later record \(2031-01-18 00:00 UTC\).*Reverse that one first/,
    );
    const lost = fresh();
    depart(lost);
    record(lost, "record.loss", { flightId: "base.drover-1", at: day(13), note: "" });
    expect(refusal(() => recordedAs(lost, standing(lost, "departure")))).toMatch(/was lost by a later record/);
    correct(lost, standing(lost, "loss of flight"), { at: day(14) });
    expect(lost.entities().flight.map(({ status, lostAt }) => [status, lostAt])).toEqual([
      ["lost", day(14)],
      ["lost", day(14)],
    ]);
    expect(on(lost, "in-flight loss/drover")).toBe(500);
    expect(lost.header().undoLabel).toBe("Correct loss of Drover 1");
  });
});

describe("a loading", () => {
  test("with a gauge of the very minute that was read after it: what was read stands", () => {
    const store = fresh();
    load(store);
    read(store, day(30), 400);
    // 1,000·e^(−0.3) = 740.818 kg by the model, less 310 kg.
    expect(on(store, "unaccounted/mere")).toBe(30.818);
    correct(store, standing(store, "loading", "first"), { drawn: [{ tankId: "mere-lh2", massKg: 410 }] });
    expect(on(store, "tank/mere-lh2")).toBe(400);
    expect(on(store, "unaccounted/mere")).toBe(-69.182);
    store.undo("Ada", day(301));
    expect([on(store, "tank/mere-lh2"), on(store, "unaccounted/mere")]).toEqual([400, 30.818]);
    // Undone, it is still the gauge that was read upon it: alone taken back, too, what was read stands.
    const entryId = standing(store, "loading", "first");
    store.commit(recordReverse(store, { entryId, reason: "" }, recorder));
    expect([on(store, "tank/mere-lh2"), on(store, "unaccounted/mere")]).toEqual([400, 340.818]);
    expect(store.verify()).toMatchObject({ isSound: true });
  });

  test("with a gauge of the very minute that was read before it: it is drawn from what was read", () => {
    const store = fresh();
    read(store, day(30), 700);
    load(store);
    expect(on(store, "tank/mere-lh2")).toBe(390);
    correct(store, standing(store, "loading", "first"), { drawn: [{ tankId: "mere-lh2", massKg: 410 }] });
    expect(on(store, "tank/mere-lh2")).toBe(290);
    expect(on(store, "unaccounted/mere")).toBe(40.818);
  });

  test("above what the tank held is refused, by the preview as well, and writes nothing", () => {
    const store = fresh();
    load(store);
    const id = standing(store, "loading", "first");
    const before = store.document();
    const drawn = [{ tankId: "mere-lh2", massKg: 1001 }];
    expect(refusal(() => stepOf(store, id, { drawn }))).toMatch(/Mere lh2 would hold -1 kg/);
    const { input } = right(store, id, { drawn });
    const wrong = { kind: "entry" as const, id };
    expect(
      refusal(() => previewRecord(store, "record.loading", input as RecordInput<"record.loading">, recorder, wrong)),
    ).toMatch(/would hold/);
    expect(store.document()).toEqual(before);
  });

  test("whose sortie has come home since is refused, with what to do first", () => {
    const store = fresh();
    load(store);
    home(store);
    expect(refusal(() => recordedAs(store, standing(store, "loading", "first")))).toMatch(
      /First came home by a later record \(2031-02-10 00:00 UTC\).*Reverse that one first/,
    );
  });
});

describe("a return whose lander left again since", () => {
  /** First came home on day 40 with 20 kg; Second left on day 50 and came home on day 60 with some of what it had. */
  const leftAgain = (homeKg: number): LedgerStore => {
    const store = fresh();
    const changes = handPlan.sortie.map((row) => ({
      op: "put" as const,
      kind: "sortie" as const,
      value: {
        ...row,
        id: `${row.planCaseId}.second`,
        key: "second",
        name: "Second",
        loadAt: day(50),
        returnAt: day(60),
      },
    }));
    store.commit(stepWith({ changes }));
    load(store);
    home(store);
    load(store, "second", day(50), 110);
    home(store, "second", day(60), homeKg);
    return store;
  };

  test("puts what the next one left with right, and so what it burned", () => {
    const store = leftAgain(15);
    // 20 kg lose 2 %/day for ten days at the dock: 16.375 kg leave with Second, besides 100 kg.
    expect(on(store, "burned/wren")).toBeCloseTo(280 + 100 + 16.375 - 15, 3);
    correct(store, standing(store, "return", "first"), { aboard: lh2(10) });
    expect(on(store, "burned/wren")).toBeCloseTo(290 + 100 + 8.187 - 15, 3);
    expect(on(store, "tank/wren:lh2")).toBe(15);
    store.undo("Ada", day(301));
    expect(on(store, "burned/wren")).toBeCloseTo(280 + 100 + 16.375 - 15, 3);
  });

  test("is refused where the next one would have come home with more than it left with", () => {
    const store = leftAgain(112);
    expect(refusal(() => stepOf(store, standing(store, "return", "first"), { aboard: lh2(5) }))).toMatch(
      /Second came home on 2031-03-02 00:00 UTC with more than it would then have left with/,
    );
    expect(refusal(() => stepOf(store, standing(store, "return", "first"), { aboard: lh2(500) }))).toMatch(
      /left with 300 kg of Hydrogen/,
    );
  });

  test("is not taken back either where the next one would have come home with more than it left with", () => {
    const first = (store: LedgerStore) => ({ entryId: standing(store, "return", "first"), reason: "" });
    const reverse = (store: LedgerStore) => recordReverse(store, first(store), recorder);
    expect(refusal(() => reverse(leftAgain(112)))).toMatch(/Second came home on 2031-03-02 00:00 UTC with more/);
    const other = leftAgain(15);
    other.commit(reverse(other));
    expect(on(other, "burned/wren")).toBeCloseTo(100 - 15, 3);
  });

  test("is refused at a date at which the lander was away again", () => {
    const store = leftAgain(15);
    expect(refusal(() => stepOf(store, standing(store, "return", "first"), { at: day(55) }))).toMatch(
      /Wren left for Second on 2031-02-20 00:00 UTC and came home on 2031-03-02 00:00 UTC: it cannot be on First/,
    );
  });
});
