/** Undo and redo in the file: across restarts, by row images, with the journal only ever growing. */
import { join } from "node:path";
import { assert, array, constantFrom, integer, oneof, property, record } from "fast-check";
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { PlanningError } from "../../app/ground/failure.ts";
import type { Change } from "../../app/entity/entities.ts";
import { entityKinds } from "../../app/entity/entities.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { recordArrival } from "../../app/records/record-arrival.ts";
import { recordDeparture } from "../../app/records/record-departure.ts";
import { recordReading } from "../../app/records/record-reading.ts";
import { recordReverse, recordWithdrawal } from "../../app/records/record-reverse.ts";
import { snakeCase } from "../../db/columns.ts";
import { createLedger, openLedger } from "../../db/ledger.ts";
import { day, handLedger, handPlan, recorder, stepWith, temporaryFolder } from "../app/records/hand-ledger.ts";
import { runs } from "../suite/runs.ts";

const folder = temporaryFolder();

/** Every byte of the plan tables, the readings' and the ledger's settings; and what is in force of the books. */
const dump = (path: string) => {
  const db = new Sqlite(path, { readonly: true });
  const tables = [...entityKinds.map(snakeCase), "reading"].map((table) => [
    table,
    db.prepare(`SELECT * FROM ${table} ORDER BY id`).all(),
  ]);
  const balances = db
    .prepare(
      "SELECT kind, owner_id, propellant_id, balance_grams FROM account WHERE balance_grams <> 0 ORDER BY 1, 2, 3",
    )
    .all();
  const asOf = db.prepare("SELECT as_of_at FROM ledger").pluck().get();
  db.close();
  return JSON.stringify({ tables, balances, asOf });
};

const undoAll = (store: LedgerStore) => {
  const undone: string[] = [];
  for (let label = store.header().undoLabel; label !== null; label = store.header().undoLabel) {
    undone.push(label);
    store.undo("Ada", day(301));
  }
  return undone;
};

type Move =
  | { readonly kind: "slip"; readonly which: number; readonly days: number }
  | { readonly kind: "add" | "remove"; readonly which: number }
  | { readonly kind: "asOf"; readonly days: number }
  | { readonly kind: "read"; readonly days: number; readonly kg: number }
  | { readonly kind: "fly" | "reverse" | "withdraw"; readonly which: number }
  | { readonly kind: "undo" | "redo" };

const small = integer({ min: 0, max: 50 });
const moves = array(
  oneof(
    record({ kind: constantFrom("slip" as const), which: small, days: integer({ min: -3, max: 9 }) }),
    record({ kind: constantFrom("add" as const, "remove" as const), which: small }),
    record({ kind: constantFrom("asOf" as const), days: small }),
    record({ kind: constantFrom("read" as const), days: small, kg: integer({ min: 0, max: 3000 }) }),
    record({ kind: constantFrom("fly" as const, "reverse" as const, "withdraw" as const), which: small }),
    record({ kind: constantFrom("undo" as const, "redo" as const) }),
  ),
  { minLength: 1, maxLength: 25 },
);

const at = <T>(rows: readonly T[], which: number): T | undefined => rows[which % Math.max(1, rows.length)];

/** One move; what the rules refuse changes nothing. */
const play = (store: LedgerStore, move: Move): void => {
  const { flight } = store.entities();
  switch (move.kind) {
    case "slip": {
      const row = at(flight, move.which);
      if (row === undefined) return;
      const value = {
        ...row,
        departAt: row.departAt + move.days * 3_600_000,
        arriveAt: row.arriveAt + move.days * 7_200_000,
      };
      return store.commit(stepWith({ label: "slip", changes: [{ op: "put", kind: "flight", value }] }));
    }
    case "add": {
      const value = {
        ...handPlan.flight[0]!,
        id: `new-${move.which}`,
        key: `new-${move.which}`,
        name: `New ${move.which}`,
      };
      return store.commit(stepWith({ label: "add", changes: [{ op: "put", kind: "flight", value }] }));
    }
    case "remove": {
      const row = at(flight, move.which);
      const change: Change = { op: "remove", kind: "flight", id: row?.id ?? "none" };
      return store.commit(stepWith({ label: "remove", changes: [change] }));
    }
    case "asOf":
      return store.commit(stepWith({ label: "as of", asOfAt: move.days === 0 ? null : day(move.days) }));
    case "read": {
      const input = {
        tankId: "mere-lh2",
        at: day(move.days),
        massKg: move.kg,
        sigmaKg: 5,
        takeIntoBooks: move.kg % 3 > 0,
        note: "",
      };
      return store.commit(recordReading(store, { ...input, id: recorder.newId() }, recorder));
    }
    case "fly": {
      const row = at(flight, move.which);
      if (row === undefined) return;
      const input = { flightId: row.id, at: day(5 + (move.which % 20)), note: "" };
      if (row.status === "departed")
        return store.commit(
          recordArrival(
            store,
            {
              ...input,
              at: row.departAt + 1,
              taken: [{ tankId: "mere-lh2", massKg: 333 }],
              handoverLoss: [],
              leftAboard: [],
              vented: [],
            },
            recorder,
          ),
        );
      return store.commit(
        recordDeparture(store, { ...input, loads: [{ propellantId: "lh2", loadedKg: 400 }] }, recorder),
      );
    }
    case "reverse": {
      const entry = at(store.document().entries, move.which);
      if (entry === undefined) return;
      return store.commit(recordReverse(store, { entryId: entry.id, reason: "" }, recorder));
    }
    case "withdraw": {
      const row = at(store.readings(), move.which);
      if (row === undefined) return;
      return store.commit(recordWithdrawal(store, { readingId: row.id, reason: "" }, recorder));
    }
    case "undo":
      return store.undo("Ada", day(302));
    case "redo":
      return store.redo("Ada", day(303));
  }
};

const playAll = (store: LedgerStore, list: readonly Move[]) => {
  for (const move of list)
    try {
      play(store, move);
    } catch (error) {
      if (!(error instanceof PlanningError) || !["refused", "not found"].includes(error.code)) throw error;
    }
};

/** Every reading in the books is still where the books were brought to, whatever was recorded late or taken back since. */
const readingsStand = (store: LedgerStore) => {
  const movements = Map.groupBy(store.tankMovements(-1, day(500)), (m) => `${m.tankId} ${m.at}`);
  for (const { tankId, at: readAt, massKg, entryId, isWithdrawn } of store.readings()) {
    const [only, ...others] = movements.get(`${tankId} ${readAt}`) ?? [];
    if (entryId !== null && !isWithdrawn && others.length === 0) expect(only?.bookKg).toBe(massKg);
  }
};

test("whatever was done: the books balance, undo of all is the beginning to the byte, redo of all the end", () => {
  const nothing = createLedger(join(folder, "empty.coldstock"), { programme: "Hand" });
  const empty = dump(nothing.header().path);
  nothing.close();
  assert(
    property(moves, (list) => {
      const store = handLedger(folder);
      const { path } = store.header();
      playAll(store, list);
      const end = dump(path);
      expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
      readingsStand(store);
      const undone = undoAll(store);
      expect(dump(path) === empty).toBe(true);
      expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
      for (const label of undone.toReversed()) {
        expect(store.header().redoLabel).toBe(label);
        store.redo("Ada", day(304));
      }
      // A step that the play itself had left undone stays so.
      expect(dump(path) === end).toBe(true);
      expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
      store.close();
    }),
    { numRuns: runs(10) },
  );
});

test("undo and redo survive a restart, and say who turned the step", () => {
  const store = handLedger(folder);
  const { path } = store.header();
  const [row] = store.entities().flight;
  const moved = { ...row!, departAt: day(12), arriveAt: day(19) };
  store.commit(
    stepWith({ label: "Move Drover 1", reason: "weather", changes: [{ op: "put", kind: "flight", value: moved }] }),
  );
  store.close();
  const again = openLedger(path);
  expect(again.header()).toMatchObject({ undoLabel: "Move Drover 1", redoLabel: null });
  again.undo("Bo", day(310));
  expect(again.entities().flight[0]).toEqual(row);
  again.close();
  const third = openLedger(path);
  expect(third.header().redoLabel).toBe("Move Drover 1");
  third.redo("Bo", day(311));
  expect(third.entities().flight[0]).toEqual(moved);
  expect(third.history(0, 1)[0]).toMatchObject({
    label: "Move Drover 1",
    reason: "weather",
    author: "Ada",
    state: "done",
    changes: ["flight Drover 1: departs 2031-01-11 → 2031-01-13, arrives 2031-01-16 → 2031-01-20"],
  });
  third.close();
});

test("an edit after an undo replaces what was undone; it can no longer be redone", () => {
  const store = handLedger(folder);
  store.undo("Ada", day(300));
  store.commit(stepWith({ label: "As of", asOfAt: day(3) }));
  expect(store.header()).toMatchObject({ undoLabel: "As of", redoLabel: null });
  expect(store.history(0, 9).map(({ state }) => state)).toEqual(["done", "replaced", "done", "done"]);
  expect(() => store.redo("Ada", day(300))).toThrow(/nothing to redo/);
  store.close();
});

test("a row that was changed by other means is not undone over: the step is refused whole", () => {
  const store = handLedger(folder);
  const { path } = store.header();
  const [row] = store.entities().flight;
  const rename = (value: typeof row) =>
    stepWith({ label: "Rename", changes: [{ op: "put", kind: "flight", value: value! }] });
  store.commit(rename({ ...row!, name: "Drover One" }));
  const other = new Sqlite(path);
  other.exec("UPDATE flight SET note = 'by hand' WHERE id = 'base.drover-1'");
  other.close();
  expect(() => store.undo("Ada", day(300))).toThrow(/“Rename” cannot be undone: .* changed since/);
  expect(store.entities().flight[0]).toMatchObject({ name: "Drover One", note: "by hand" });
  expect(store.header().undoLabel).toBe("Rename");
  store.close();
});

test("a step that changes nothing is not kept", () => {
  const store = handLedger(folder);
  const { revision } = store.header();
  store.commit(stepWith({ label: "Nothing", changes: [{ op: "put", kind: "flight", value: handPlan.flight[0]! }] }));
  expect(store.header()).toMatchObject({ revision, undoLabel: "Open mere-lox" });
  store.close();
});
