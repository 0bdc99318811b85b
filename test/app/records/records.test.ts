/** What records book, worked by hand: 1,000 kg of hydrogen at 1 %/day (m = m0·e^(−k·t), an exponentially decaying stock). */
import { afterAll, describe, expect, test } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import { levelAt } from "../../../app/forecast/curve.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { glance } from "../../../app/supply/glance.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import { recordArrival } from "../../../app/records/record-arrival.ts";
import { recordClosing } from "../../../app/records/record-closing.ts";
import { recordDeparture } from "../../../app/records/record-departure.ts";
import { recordEntry } from "../../../app/records/record-entry.ts";
import { recordLoading } from "../../../app/records/record-loading.ts";
import { recordLoss } from "../../../app/records/record-loss.ts";
import { recordReading } from "../../../app/records/record-reading.ts";
import { recordReturn } from "../../../app/records/record-return.ts";
import { recordReverse, recordWithdrawal } from "../../../app/records/record-reverse.ts";
import { day, handLedger, recorder, temporaryFolder } from "./hand-ledger.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
const fresh = () => {
  const store = handLedger(folder);
  open.push(store);
  return store;
};
afterAll(() => open.forEach((store) => store.close()));

const read = (store: LedgerStore, at: number, massKg: number, id = `r-${at}`, tankId = "mere-lh2") =>
  store.commit(recordReading(store, { id, tankId, at, massKg, sigmaKg: 5, takeIntoBooks: true, note: "" }, recorder));
const depart = (store: LedgerStore, kg = 500) =>
  store.commit(
    recordDeparture(
      store,
      { flightId: "base.drover-1", at: day(11), loads: [{ propellantId: "lh2", loadedKg: kg }], note: "" },
      recorder,
    ),
  );
const arrive = (store: LedgerStore, takenKg: number, at = day(17)) =>
  store.commit(
    recordArrival(
      store,
      {
        flightId: "base.drover-1",
        at,
        taken: [{ tankId: "mere-lh2", massKg: takenKg }],
        handoverLoss: [{ propellantId: "lh2", massKg: 10 }],
        leftAboard: [{ propellantId: "lh2", massKg: 5 }],
        vented: [{ propellantId: "lh2", massKg: 3 }],
        note: "",
      },
      recorder,
    ),
  );
const on = (store: LedgerStore, account: string, propellant = "lh2") => store.balanceKg(account, propellant);
const failure = (act: () => void): PlanningError => {
  try {
    act();
  } catch (error) {
    if (error instanceof PlanningError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
};

describe("a reading taken into the books", () => {
  test("books the loss of the model as boil-off and the rest as unaccounted", () => {
    const store = fresh();
    read(store, day(10), 900);
    // 1000·e^(−0.1) = 904.837 kg by the model; 4.837 kg are missing beyond it.
    expect(on(store, "boil-off/mere")).toBe(95.163);
    expect(on(store, "unaccounted/mere")).toBe(4.837);
    expect(on(store, "tank/mere-lh2")).toBe(900);
    expect(store.statedLevels().find((level) => level.tankId === "mere-lh2")).toEqual({
      tankId: "mere-lh2",
      at: day(10),
      massKg: 900,
    });
  });

  test("that finds what the books say still states the level", () => {
    const store = fresh();
    read(store, day(0), 4000, "ox", "mere-lox");
    read(store, day(9), 4000, "ox-2", "mere-lox");
    expect(store.statedLevels().find((level) => level.tankId === "mere-lox")?.at).toBe(day(9));
    expect(store.verify()).toMatchObject({ isSound: true });
  });

  test("whose booking is taken back is kept, and is not mistaken for another statement of its instant", () => {
    const store = fresh();
    read(store, day(0), 307, "early");
    const [reading] = store.readings();
    store.commit(recordReverse(store, { entryId: reading?.entryId ?? "", reason: "" }, recorder));
    expect(store.readings()).toMatchObject([{ id: "early", entryId: null, isWithdrawn: false }]);
    expect(on(store, "tank/mere-lh2")).toBe(1000);
  });

  test("withdrawn, it is kept, its booking is taken back and the next reading stands", () => {
    const store = fresh();
    read(store, day(10), 900, "bad");
    read(store, day(20), 800, "good");
    store.commit(recordWithdrawal(store, { readingId: "bad", reason: "gauge stuck" }, recorder));
    // From 1000 kg on day 0 straight to 800 kg on day 20: 1000·(1 − e^(−0.2)) = 181.269 kg boiled off.
    expect(on(store, "tank/mere-lh2")).toBe(800);
    expect(on(store, "boil-off/mere")).toBe(181.269);
    expect(on(store, "unaccounted/mere")).toBe(18.731);
    const [bad, good] = store.readings();
    expect(bad).toMatchObject({ id: "bad", isWithdrawn: true });
    expect(good).toMatchObject({ id: "good", isWithdrawn: false });
    expect(store.entry(good?.entryId ?? "").at).toBe(day(20));
    expect(failure(() => recordWithdrawal(store, { readingId: "bad", reason: "" }, recorder)).code).toBe("refused");
  });
});

describe("a flight", () => {
  test("that arrived is parted into what was taken and what was lost, to the gram, in every plan case", () => {
    const store = fresh();
    depart(store);
    expect(on(store, "transit/drover-1")).toBe(500);
    expect(store.entities().flight.map(({ status, departAt, arriveAt }) => [status, departAt, arriveAt])).toEqual([
      ["departed", day(11), day(16)],
      ["departed", day(11), day(16)],
    ]);
    arrive(store, 470);
    expect(on(store, "transit/drover-1")).toBe(0);
    expect(on(store, "in-flight loss/drover")).toBe(12);
    expect(on(store, "handover loss/mere")).toBe(10);
    expect(on(store, "residual/drover")).toBe(5);
    expect(on(store, "vented/mere")).toBe(3);
    expect(on(store, "tank/mere-lh2")).toBe(1470);
    expect(store.entities().flight.map(({ status, arriveAt }) => [status, arriveAt])).toEqual([
      ["arrived", day(17)],
      ["arrived", day(17)],
    ]);
  });

  test("cannot deliver more than it carried, nor arrive before it left, nor twice", () => {
    const store = fresh();
    expect(failure(() => arrive(store, 400)).message).toMatch(/Drover 1 is planned/);
    depart(store);
    expect(failure(() => arrive(store, 490)).message).toMatch(/left with 500 kg of Hydrogen; .* come to 508 kg/);
    expect(failure(() => arrive(store, 400, day(9))).field).toBe("at");
    arrive(store, 400);
    expect(failure(() => arrive(store, 400)).message).toMatch(/is arrived/);
  });

  test("that was lost under way loses what it carried; one that never left, nothing", () => {
    const store = fresh();
    depart(store);
    store.commit(recordLoss(store, { flightId: "other.drover-1", at: day(12), note: "" }, recorder));
    expect(on(store, "in-flight loss/drover")).toBe(500);
    expect(store.entities().flight.map(({ status }) => status)).toEqual(["lost", "lost"]);
    const other = fresh();
    other.commit(recordLoss(other, { flightId: "base.drover-1", at: day(10), note: "" }, recorder));
    expect(other.verify().entries).toBe(2);
  });

  test("recorded after a later reading leaves the reading standing", () => {
    const store = fresh();
    depart(store);
    read(store, day(27), 1300, "late");
    // Without the delivery 1000·e^(−0.27) = 763.379 kg were there by the model; the books had to find 536.621 kg.
    expect(on(store, "unaccounted/mere")).toBe(-536.621);
    arrive(store, 470);
    // 1000·e^(−0.17) + 470 on day 17, and ten days on that times e^(−0.1), by the model.
    const model = (1000 * Math.exp(-0.17) + 470) * Math.exp(-0.1);
    expect(on(store, "tank/mere-lh2")).toBe(1300);
    expect(on(store, "unaccounted/mere")).toBeCloseTo(model - 1300, 2);
    expect(on(store, "boil-off/mere")).toBeCloseTo(1470 - model, 2);
    expect(store.verify()).toMatchObject({ isSound: true });
  });

  test("taken back, it is under way again, and what rests on it is asked for first", () => {
    const store = fresh();
    depart(store);
    arrive(store, 470);
    const entries = store.document().entries;
    const idOf = (kind: string) => entries.find((entry) => entry.kind === kind)?.id ?? "";
    const reverse = (entryId: string) =>
      store.commit(recordReverse(store, { entryId, reason: "wrong flight" }, recorder));
    expect(failure(() => reverse(idOf("departure"))).message).toMatch(/by a later record/);
    reverse(idOf("arrival"));
    expect(on(store, "transit/drover-1")).toBe(500);
    expect(store.entities().flight.map(({ status }) => status)).toEqual(["departed", "departed"]);
    reverse(idOf("departure"));
    expect(store.entities().flight.map(({ status }) => status)).toEqual(["planned", "planned"]);
    expect(failure(() => reverse(idOf("departure"))).message).toMatch(/by a later record|reversed already/);
  });
});

describe("a sortie", () => {
  const load = (store: LedgerStore, hydrogenKg = 310) =>
    store.commit(
      recordLoading(
        store,
        {
          sortieId: "base.first",
          at: day(30),
          drawn: [
            { tankId: "mere-lh2", massKg: hydrogenKg },
            { tankId: "mere-lox", massKg: 1500 },
          ],
          handoverLoss: [{ propellantId: "lh2", massKg: 10 }],
          note: "",
        },
        recorder,
      ),
    );

  test("takes what was drawn less the handover; what does not come home was burned", () => {
    const store = fresh();
    load(store);
    expect(on(store, "transit/first")).toBe(300);
    expect(on(store, "handover loss/mere")).toBe(10);
    store.commit(
      recordReturn(
        store,
        { sortieId: "base.first", at: day(41), aboard: [{ propellantId: "lh2", massKg: 25 }], note: "" },
        recorder,
      ),
    );
    expect(on(store, "burned/wren")).toBe(275);
    expect(on(store, "burned/wren", "lox")).toBe(1500);
    expect(store.entities().sortie.map(({ status, returnAt }) => [status, returnAt])).toEqual([
      ["flown", day(41)],
      ["flown", day(41)],
    ]);
    // What came home boils off at the docked rate of the class: 25·e^(−0.02·10) = 20.468 kg ten days later.
    store.commit({
      ...recordReading(
        store,
        { id: "x", tankId: "mere-lox", at: day(51), massKg: 2500, sigmaKg: 9, takeIntoBooks: true, note: "" },
        recorder,
      ),
    });
    // The flight that has no record is replayed from before this instant; the lander's level is read off the forecast.
    const aboard = forecast(planView(store, "base").plan).levels.find((level) => level.tankId === "wren:lh2");
    expect(levelAt(aboard?.segments ?? [], day(51))).toBeCloseTo(25 * Math.exp(-0.2), 9);
  });

  test("given more than it needs, it is forecast to bring home what is over, and that is said", () => {
    const store = fresh();
    load(store, 380);
    expect(on(store, "transit/first")).toBe(370);
    const { plan } = planView(store, "base");
    expect(plan.leftWith).toContainEqual({ sortieId: "base.first", propellantId: "lh2", massKg: 370, givenKg: 370 });
    const seen = forecast(plan);
    // 300 is needed, of which 20 come home: 370 − 300 + 20.
    expect(seen.sorties[0]?.lines[0]).toMatchObject({ surplusKg: 70, returnedKg: 90 });
    expect(glance(plan, seen).verdict.notes).toContain(
      "First leaves with 70\u202fkg of hydrogen more than it needs: that stays aboard and is counted when it is home again. What it costs to carry is not counted.",
    );
  });

  test("cannot come home with more than it left with, nor lose more than was drawn", () => {
    const store = fresh();
    load(store);
    const home = (propellantId: string, massKg: number) =>
      recordReturn(
        store,
        { sortieId: "base.first", at: day(41), aboard: [{ propellantId, massKg }], note: "" },
        recorder,
      );
    expect(failure(() => home("lh2", 301)).message).toMatch(/left with 300 kg of Hydrogen/);
    expect(failure(() => home("xenon", 1)).code).toBe("not found");
  });
});

test("a closing books the loss of every tank of the depot; a measured one goes to the measure", () => {
  const store = fresh();
  store.commit(
    recordClosing(
      store,
      { depotId: "mere", at: day(31), measured: [{ tankId: "mere-lox", massKg: 3990, sigmaKg: 12 }], note: "January" },
      recorder,
    ),
  );
  expect(on(store, "tank/mere-lh2")).toBe(733.447); // 1000·e^(−0.31)
  expect(on(store, "boil-off/mere")).toBe(266.553);
  expect(on(store, "tank/mere-lox", "lox")).toBe(3990);
  expect(on(store, "unaccounted/mere", "lox")).toBe(10);
  expect(store.readings()).toHaveLength(1);
});

test("no tank is drawn below empty, and no entry is written that its own command makes", () => {
  const store = fresh();
  const entry = (kind: "vent" | "arrival" | "opening", kg: number) =>
    recordEntry(
      store,
      {
        id: recorder.newId(),
        at: day(5),
        kind,
        subjectKey: null,
        note: "",
        postings: [
          { account: { kind: "tank", ownerId: "mere-lh2" }, propellantId: "lh2", grams: -kg * 1000 },
          { account: { kind: "vented", ownerId: "mere" }, propellantId: "lh2", grams: kg * 1000 },
        ],
      },
      recorder,
    );
  expect(failure(() => entry("arrival", 1)).field).toBe("kind");
  expect(failure(() => entry("opening", 1)).message).toMatch(/open already/);
  expect(failure(() => store.commit(entry("vent", 1001))).message).toMatch(/would hold -1 kg/);
  store.commit(entry("vent", 1));
  expect(on(store, "vented/mere")).toBe(1);
});
