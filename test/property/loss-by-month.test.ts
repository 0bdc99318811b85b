/** Loss by the month that it happened in: over random books both readings hold the same mass, and months do not depend on their neighbours. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { array, assert, constantFrom, integer, property, record } from "fast-check";
import { afterAll, describe, expect, test } from "vitest";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import type { EntryKind, JournalEntry, Posting } from "../../app/ledger/journal.ts";
import { type LossBook, lossBook } from "../../app/losses/loss-book.ts";
import { lossCauses } from "../../app/losses/statement.ts";
import { loadDocument } from "../../db/ledger.ts";
import { runs } from "../suite/runs.ts";

const folder = mkdtempSync(join(tmpdir(), "loss-months-"));
afterAll(() => rmSync(folder, { recursive: true }));
let files = 0;

const DAY = 86_400_000;
const BEGIN_AT = Date.UTC(2031, 0, 1);
const dayAt = (days: number): number => BEGIN_AT + days * DAY;

const base = demoTarn().entities;
const hydrogen = base.tank.find((tank) => tank.id === "tarn-hydrogen")!;
const tankIds = ["tarn-hydrogen", "second"] as const;
type TankId = (typeof tankIds)[number];

interface Rate {
  readonly tankId: TankId;
  readonly kPerDay: number;
  readonly cKgPerDay: number;
  /** Days; null: always. */
  readonly span: readonly [number, number] | null;
}

const entitiesWith = (rates: readonly Rate[]) => ({
  ...base,
  tank: [...base.tank, { ...hydrogen, id: "second", name: "Second hydrogen" }],
  lossPeriod: rates.map(({ tankId, kPerDay, cKgPerDay, span }, place) => ({
    id: `p-${place}`,
    tankId,
    planCaseId: null,
    fromAt: span === null ? null : dayAt(span[0]),
    untilAt: span === null ? null : dayAt(span[1]),
    basis: { kind: "stated" as const, kPerDay, cKgPerDay },
    reason: "test",
    note: "",
  })),
});

const post = (kind: Posting["account"]["kind"], ownerId: string, grams: number): Posting => ({
  account: { kind, ownerId },
  propellantId: "hydrogen",
  grams,
});

const entry = (id: string, kind: EntryKind, at: number, postings: Posting[]): JournalEntry => ({
  id,
  at,
  kind,
  subjectKey: null,
  reversesId: null,
  note: "",
  author: "test",
  recordedAt: BEGIN_AT,
  postings: postings.filter(({ grams }) => grams !== 0),
});

const opened = (openedKg: number, at: number): readonly JournalEntry[] =>
  tankIds.map((tankId) =>
    entry(`open-${tankId}`, "opening", at, [
      post("source", "ground", -openedKg * 1000),
      post("tank", tankId, openedKg * 1000),
    ]),
  );

const storeOf = (rates: readonly Rate[], entries: readonly JournalEntry[]): LedgerStore =>
  loadDocument(join(folder, `${files++}.coldstock`), {
    ...demoTarn(),
    entities: entitiesWith(rates),
    entries: [...entries],
    readings: [],
  });

const bookOf = (store: LedgerStore, edges: readonly number[]): LossBook =>
  lossBook(store.entitiesOfCase("baseline"), store, edges, true);

const hydrogenOf = (statements: LossBook["happened"]) =>
  statements!.find(({ depotId, propellantId }) => depotId === "tarn" && propellantId === "hydrogen")!;

const move = record({
  kind: constantFrom("arrival", "loading", "reading", "closing", "both closing"),
  tank: constantFrom(...tankIds),
  hour: integer({ min: 0, max: 24 * 180 }),
  grams: integer({ min: 1, max: 400_000 }),
  astray: integer({ min: -200_000, max: 200_000 }),
});
type Move = typeof move extends { generate: (...a: never[]) => { value: infer T } } ? T : never;

const entryOf = ({ kind, tank, hour, grams, astray }: Move, place: number): JournalEntry => {
  const id = `e-${place}`;
  const at = BEGIN_AT + hour * 3_600_000;
  if (kind === "arrival") return entry(id, kind, at, [post("source", "ground", -grams), post("tank", tank, grams)]);
  if (kind === "loading") return entry(id, kind, at, [post("tank", tank, -grams), post("burned", "heron-1", grams)]);
  const share = kind === "both closing" ? Math.floor(grams / 3) : 0;
  return entry(id, kind === "reading" ? "reading" : "closing", at, [
    post("tank", tank, share - grams - astray),
    post("tank", tank === "second" ? "tarn-hydrogen" : "second", -share),
    post("boil-off", "tarn", grams),
    post("unaccounted", "tarn", astray),
  ]);
};

const rate = record({
  tankId: constantFrom(...tankIds),
  kPerDay: constantFrom(0, 0.0002, 0.002),
  cKgPerDay: constantFrom(0, 4, 60),
  span: constantFrom(null, [13, 25] as const, [40, 100] as const, [90, 91] as const),
});

test("both readings of random books hold the same mass to the gram, and a month is the same whatever stands beside it", () => {
  const edges = [-31, 0, 31, 59, 90, 120, 151, 181].map(dayAt);
  assert(
    property(array(rate, { maxLength: 5 }), array(move, { minLength: 1, maxLength: 40 }), (rates, moves) => {
      const store = storeOf(rates, [...opened(60_000, BEGIN_AT - 1), ...moves.map(entryOf)]);
      const book = bookOf(store, edges);
      const [booked, happened] = [hydrogenOf(book.statements), hydrogenOf(book.happened)];
      for (const cause of lossCauses) expect(happened.total[cause]).toBe(booked.total[cause]);
      expect(happened.total.closingGrams).toBe(booked.total.closingGrams);
      for (const [place, line] of happened.lines.entries()) {
        const beside = booked.lines[place]!;
        expect([line.receivedGrams, line.drawnGrams]).toEqual([beside.receivedGrams, beside.drawnGrams]);
        const alone = hydrogenOf(bookOf(store, [line.fromAt, line.untilAt]).happened).lines[0];
        expect(alone).toEqual(line);
      }
      store.close();
    }),
    { numRuns: runs(20), seed: 20_320 },
  );
}, 120_000);

test("each month bears what small steps of a day's thousandth say of the same rates", () => {
  const edges = [0, 31, 59, 90].map(dayAt);
  assert(
    property(array(rate, { minLength: 1, maxLength: 4 }), integer({ min: 32, max: 80 }), (some, last) => {
      // What always holds loses something: there must be something to share by.
      const rates = some.map((each): Rate => {
        const tankId = "tarn-hydrogen";
        return each.span === null ? { tankId, kPerDay: 0.001, cKgPerDay: 2, span: null } : { ...each, tankId };
      });
      rates.unshift({ tankId: "tarn-hydrogen", kPerDay: 0.0003, cKgPerDay: 0, span: null });
      const reading = entry("r", "reading", dayAt(last), [
        post("tank", "tarn-hydrogen", -5_000_000),
        post("boil-off", "tarn", 4_100_003),
        post("unaccounted", "tarn", 899_997),
      ]);
      const arrival = entry("a", "arrival", dayAt(20), [
        post("source", "ground", -9_000_000),
        post("tank", "tarn-hydrogen", 9_000_000),
      ]);
      const store = storeOf(rates, [...opened(30_000, dayAt(0)), arrival, reading]);
      const { lines } = hydrogenOf(bookOf(store, edges).happened);
      store.close();
      const lost = [0, 0, 0];
      let level = 30_000;
      const steps = 1000;
      for (let step = 0; step < last * steps; step++) {
        const day = step / steps;
        if (step === 20 * steps) level += 9000;
        const inForce = rates
          .map((each, place) => ({ ...each, place }))
          .filter(({ span }) => span === null || (day >= span[0] && day < span[1]))
          .toSorted((a, b) => (a.span?.[0] ?? -1) - (b.span?.[0] ?? -1) || a.place - b.place)
          .at(-1)!;
        const loss = (inForce.kPerDay * level + inForce.cKgPerDay) / steps;
        level -= loss;
        lost[day < 31 ? 0 : day < 59 ? 1 : 2]! += loss;
      }
      const all = lost[0]! + lost[1]! + lost[2]!;
      for (const [place, kg] of lost.entries()) {
        expect(lines[place]!.boilOffGrams / 4_100_003).toBeCloseTo(kg / all, 4);
        expect(lines[place]!.unaccountedGrams / 899_997).toBeCloseTo(kg / all, 4);
      }
    }),
    { numRuns: 15, seed: 20_321 },
  );
}, 120_000);

describe("worked by hand", () => {
  const steady: Rate = { tankId: "tarn-hydrogen", kPerDay: 0, cKgPerDay: 10, span: null };
  const outage: Rate = { tankId: "tarn-hydrogen", kPerDay: 0, cKgPerDay: 30, span: [13, 25] };
  const months = [0, 31, 59].map(dayAt);
  const readAt = (id: string, at: number, boiled: number, astray: number): JournalEntry =>
    entry(id, "reading", at, [
      post("tank", "tarn-hydrogen", -boiled - astray),
      post("boil-off", "tarn", boiled),
      post("unaccounted", "tarn", astray),
    ]);

  test("an outage in January stands in January, though February's reading booked it", () => {
    // 10 kg/day, 30 in the outage of 12 days: 19 · 10 + 12 · 30 = 550 kg in January, 9 · 10 = 90 in February to the 10th.
    const store = storeOf([steady, outage], [...opened(9000, dayAt(0)), readAt("r", dayAt(40), 640_000, 64_000)]);
    const book = bookOf(store, months);
    store.close();
    expect(hydrogenOf(book.statements).lines.map((line) => line.boilOffGrams)).toEqual([0, 640_000]);
    expect(hydrogenOf(book.happened).lines.map((line) => line.boilOffGrams)).toEqual([550_000, 90_000]);
    expect(hydrogenOf(book.happened).lines.map((line) => line.unaccountedGrams)).toEqual([55_000, 9000]);
    expect(hydrogenOf(book.happened).lines[0]!.closingGrams).toBe((2 * 9000 - 605) * 1000);
  });

  test("what is found after the period shown still belongs to it; without any rate it is shared by time", () => {
    const store = storeOf([], [...opened(9000, dayAt(0)), readAt("r", dayAt(62), 62_000, -620)]);
    const january = hydrogenOf(bookOf(store, months.slice(0, 2)).happened).lines[0]!;
    store.close();
    expect([january.boilOffGrams, january.unaccountedGrams]).toEqual([31_000, -310]);
  });

  test("a reading at exactly midnight books the month that ends there, in both readings; so does what arrives then", () => {
    const arrival = entry("a", "arrival", dayAt(31), [post("source", "ground", -700), post("tank", "second", 700)]);
    const store = storeOf([steady], [...opened(9000, dayAt(0)), arrival, readAt("r", dayAt(31), 310_000, 0)]);
    const book = bookOf(store, months);
    store.close();
    for (const statement of [hydrogenOf(book.statements), hydrogenOf(book.happened)]) {
      expect(statement.lines.map((line) => line.boilOffGrams)).toEqual([310_000, 0]);
      expect(statement.lines.map((line) => line.receivedGrams)).toEqual([700, 0]);
    }
  });

  test("a reading taken back moves nothing", () => {
    const store = storeOf([steady], [...opened(9000, dayAt(0)), readAt("r", dayAt(40), 640_000, 64_000)]);
    store.commit({
      label: "take back",
      reason: "",
      author: "test",
      recordedAt: BEGIN_AT,
      changes: [],
      entries: [],
      readings: [],
      withdrawnReadingIds: [],
      reversedEntryIds: ["r"],
    });
    const book = bookOf(store, months);
    store.close();
    expect(hydrogenOf(book.happened)).toEqual(hydrogenOf(book.statements));
  });
});
