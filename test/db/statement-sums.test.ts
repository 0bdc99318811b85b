/** The statement's sums from the file against a plain walk through the journal's document, and their identity to the gram. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { array, assert, constantFrom, integer, property, record } from "fast-check";
import { afterAll, expect, test } from "vitest";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { JournalEntry, Posting } from "../../app/ledger/journal.ts";
import { composeStatements, imbalance } from "../../app/losses/statement.ts";
import type { StatementSums } from "../../app/ledger/statement-sums.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { loadDocument } from "../../db/ledger.ts";

const folder = mkdtempSync(join(tmpdir(), "statement-"));
afterAll(() => rmSync(folder, { recursive: true }));
let files = 0;

const DAY = 86_400_000;
const BEGIN_AT = Date.UTC(2031, 0, 1);
// Two more tanks, one of them at a second depot, so that mass also moves within a depot and between depots.
const base = demoTarn().entities;
const firstTank = base.tank.find((tank) => tank.ownerKind === "depot")!;
const entities = {
  ...base,
  depot: [...base.depot, { ...base.depot[0]!, id: "mere", name: "Mere" }],
  tank: [
    ...base.tank,
    { ...firstTank, id: "second-tank", name: "Second" },
    { ...firstTank, id: "mere-tank", name: "Mere tank", ownerId: "mere" },
  ],
};
const depotTanks = entities.tank.filter((tank) => tank.ownerKind === "depot");
const sourceId = entities.source[0]!.id;
const flightKey = entities.flight[0]!.key;
const craftId = entities.craft[0]!.id;
const kinds = ["arrival", "loading", "transfer", "vent", "closing", "reading"] as const;

interface Move {
  readonly kind: (typeof kinds)[number];
  readonly tank: number;
  readonly other: number;
  readonly hour: number;
  readonly grams: number;
  readonly lost: number;
}

const post = (kind: Posting["account"]["kind"], ownerId: string, propellantId: string, grams: number): Posting => ({
  account: { kind, ownerId },
  propellantId,
  grams,
});

/** Postings of one random entry; a transfer goes to another tank of the propellant where there is one, else in from a source. */
const postingsOf = ({ kind, tank: place, other, grams, lost }: Move): Posting[] => {
  const tank = depotTanks[place % depotTanks.length]!;
  const p = tank.propellantId;
  const depot = tank.ownerId;
  switch (kind) {
    case "arrival":
      return [
        post("transit", flightKey, p, -grams - lost * 3),
        post("tank", tank.id, p, grams),
        post("handover loss", depot, p, lost),
        post("residual", craftId, p, lost),
        post("vented", depot, p, lost),
      ];
    case "loading":
      return [
        post("tank", tank.id, p, -grams),
        post("handover loss", depot, p, lost),
        post("transit", flightKey, p, grams - lost),
      ];
    case "transfer": {
      const others = depotTanks.filter((each) => each.propellantId === p && each.id !== tank.id);
      const to = others[other % Math.max(1, others.length)];
      return to === undefined
        ? [post("source", sourceId, p, -grams), post("tank", tank.id, p, grams)]
        : [post("tank", tank.id, p, -grams), post("tank", to.id, p, grams)];
    }
    case "vent":
      return [post("tank", tank.id, p, -grams), post("vented", depot, p, grams)];
    default:
      return [
        post("tank", tank.id, p, -grams),
        post("boil-off", depot, p, grams - lost),
        post("unaccounted", depot, p, lost),
      ];
  }
};

const entryOf = (move: Move, place: number): JournalEntry => ({
  id: `e-${place}`,
  at: BEGIN_AT + move.hour * 3_600_000,
  kind: move.kind,
  subjectKey: null,
  reversesId: null,
  note: "",
  author: "test",
  recordedAt: BEGIN_AT,
  postings: postingsOf(move),
});

const openings: readonly JournalEntry[] = depotTanks.map((tank, place) => ({
  id: `open-${place}`,
  at: BEGIN_AT,
  kind: "opening",
  subjectKey: null,
  reversesId: null,
  note: "",
  author: "test",
  recordedAt: BEGIN_AT,
  postings: [
    post("source", sourceId, tank.propellantId, -900_000_000),
    post("tank", tank.id, tank.propellantId, 900_000_000),
  ],
}));

const storeOf = (moves: readonly Move[]): LedgerStore =>
  loadDocument(join(folder, `${files++}.coldstock`), {
    ...demoTarn(),
    entities,
    entries: [...openings, ...moves.map(entryOf)],
    readings: [],
  });

const takeBack = (store: LedgerStore, ids: readonly string[]): void =>
  store.commit({
    label: "take back",
    reason: "",
    author: "test",
    recordedAt: BEGIN_AT,
    changes: [],
    entries: [],
    readings: [],
    withdrawnReadingIds: [],
    reversedEntryIds: ids,
  });

/** The walk: every entry that stands, in the order of the document, onto the line of its instant. */
const walked = (entries: readonly JournalEntry[], edges: readonly number[]): ReadonlyMap<string, StatementSums> => {
  const gone = new Set(entries.flatMap((entry) => (entry.reversesId === null ? [] : [entry.reversesId, entry.id])));
  const lines = new Map<string, StatementSums & Record<string, number | string>>();
  const depotOf = (posting: Posting): string | null => {
    if (posting.account.kind === "tank")
      return depotTanks.find((tank) => tank.id === posting.account.ownerId)?.ownerId ?? null;
    const isKept = ["boil-off", "handover loss", "vented", "unaccounted"].includes(posting.account.kind);
    return isKept && entities.depot.some((depot) => depot.id === posting.account.ownerId)
      ? posting.account.ownerId
      : null;
  };
  for (const depot of entities.depot)
    for (const { id: p } of entities.propellant)
      for (const [place, fromAt] of edges.slice(0, -1).entries()) {
        const untilAt = edges[place + 1]!;
        const line = { received: 0, drawn: 0, opening: 0, closing: 0, boil: 0, handover: 0, vented: 0, unaccounted: 0 };
        for (const entry of entries.filter((each) => !gone.has(each.id))) {
          const mine = entry.postings.filter((posting) => posting.propellantId === p && depotOf(posting) === depot.id);
          const sum = (kind: string): number =>
            mine.reduce((all, posting) => (posting.account.kind === kind ? all + posting.grams : all), 0);
          if (entry.at <= fromAt) line.opening += sum("tank");
          if (entry.at <= untilAt) line.closing += sum("tank");
          if (entry.at <= fromAt || entry.at > untilAt) continue;
          const net = mine.reduce((all, posting) => all + posting.grams, 0);
          if (net > 0) line.received += net;
          else line.drawn -= net;
          line.boil += sum("boil-off");
          line.handover += sum("handover loss");
          line.vented += sum("vented");
          line.unaccounted += sum("unaccounted");
        }
        lines.set(`${depot.id} ${p} ${place}`, {
          fromAt,
          untilAt,
          depotId: depot.id,
          propellantId: p,
          openingGrams: line.opening,
          receivedGrams: line.received,
          drawnGrams: line.drawn,
          boilOffGrams: line.boil,
          handoverLossGrams: line.handover,
          ventedGrams: line.vented,
          unaccountedGrams: line.unaccounted,
          closingGrams: line.closing,
        });
      }
  return lines;
};

const moves = array(
  record({
    kind: constantFrom(...kinds),
    tank: integer({ min: 0, max: 20 }),
    other: integer({ min: 0, max: 20 }),
    hour: integer({ min: 0, max: 24 * 120 }),
    grams: integer({ min: 0, max: 1_000_000 }),
    lost: integer({ min: -500, max: 500 }),
  }),
  { minLength: 1, maxLength: 60 },
);

test(
  "over random journals with entries taken back: as walked by hand, and adding up to the gram",
  { timeout: 120_000 },
  () => {
    assert(
      property(moves, integer({ min: 0, max: 7 }), (list, every) => {
        const store = storeOf(list);
        const back = list.flatMap((_, place) => (every > 0 && place % 8 === every ? [`e-${place}`] : []));
        if (back.length > 0) takeBack(store, back);
        const edges = [0, 1, 31, 59, 90, 125].map((day) => BEGIN_AT + day * DAY - DAY / 4);
        const sums = store.statementSums(edges);
        const entries = store.document().entries;
        store.close();
        const expected = walked(entries, edges);
        for (const line of sums) {
          const place = edges.indexOf(line.fromAt);
          expect(line).toEqual(expected.get(`${line.depotId} ${line.propellantId} ${place}`));
          expect(imbalance(line)).toBe(0);
        }
        for (const statement of composeStatements(sums)) expect(imbalance(statement.total)).toBe(0);
        expect(sums).toHaveLength(new Set(depotTanks.map((tank) => `${tank.ownerId} ${tank.propellantId}`)).size * 5);
      }),
      { numRuns: 60, seed: 20_310 },
    );
  },
);

test("a closing booked at the very end of a month belongs to that month", () => {
  const store = storeOf([{ kind: "closing", tank: 0, other: 0, hour: 31 * 24, grams: 5000, lost: 0 }]);
  const edges = [Date.UTC(2031, 0, 1), Date.UTC(2031, 1, 1), Date.UTC(2031, 2, 1)];
  const [january, february] = store
    .statementSums(edges)
    .filter((line) => line.propellantId === depotTanks[0]!.propellantId && line.depotId === depotTanks[0]!.ownerId);
  store.close();
  expect(january!.boilOffGrams).toBe(5000);
  expect(february!.boilOffGrams).toBe(0);
});

test("books that do not add up are refused, not shown", () => {
  const store = storeOf([]);
  const sums = store.statementSums([BEGIN_AT, BEGIN_AT + DAY]);
  store.close();
  const broken = sums.map((line, place) => (place === 0 ? { ...line, boilOffGrams: 1 } : line));
  expect(() => composeStatements(broken)).toThrow(/do not add up: -1 g are left over/);
});
