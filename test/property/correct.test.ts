/**
 * A record put right: with the values that it has, nothing of books, levels, statuses and forecast moves, to the gram; with
 * others, the ledger is as if the wrong record had been taken back and the right one recorded, and as if only the right one
 * had ever been; and undo leaves the rows and what is in force of the journal as they were.
 */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import type { RecordedAs } from "../../app/records/recorded-as.ts";
import { recordedAs } from "../../app/records/recorded-as.ts";
import { recordCorrection } from "../../app/records/record-correct.ts";
import { recordSteps } from "../../app/records/preview.ts";
import type { RecordInput, RecordName } from "../../app/records/record-input.ts";
import type { Recorder } from "../../app/records/recorder.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import type { LedgerBooks, Step } from "../../app/ledger/books.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { unbalanced } from "../../app/forecast/balance.ts";
import { toGrams } from "../../app/ledger/journal.ts";
import { DAY } from "../app/forecast/small-plan.ts";
import { type Site, balances, siteWith } from "../app/merge/sites.ts";
import { day } from "../app/records/hand-ledger.ts";
import { difference, documentOf, gramsOf, lawPlans, looked, possibleOf, record, viewOf } from "./law-events.ts";

const RUNS = Number(process.env["COLDSTOCK_LAW_RUNS"] ?? 40);
/** The plain run tries the same ledgers every time; the long one draws its own. */
const DRAWN = process.env["COLDSTOCK_LAW_RUNS"] === undefined ? { seed: 20_310_101 } : {};

interface Written {
  readonly record: RecordName;
  readonly input: RecordInput<RecordName>;
}

const makeOf =
  ({ record: name, input }: Written | RecordedAs) =>
  (books: LedgerBooks, recorder: Recorder): Step =>
    (recordSteps[name] as (books: LedgerBooks, input: unknown, recorder: Recorder) => Step)(books, input, recorder);

const tried = <T>(act: () => T): T | null => {
  try {
    return act();
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return null;
    throw error;
  }
};

const inForce = ({ store }: Site) => {
  const { entries } = store.document();
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  return entries.filter(({ id, kind }) => kind !== "reversal" && !gone.has(id));
};

/** Grams of every tank at the end of every instant at which anything moved it, and what a gauge of that instant stated. */
const levelsOf = ({ store }: Site) => {
  const levels = new Map<string, readonly [number, boolean]>();
  for (const { tankId, at, bookKg, statedKg } of store.tankMovements(-1, Number.MAX_SAFE_INTEGER)) {
    const stated = statedKg !== null || (levels.get(`${tankId} ${at}`)?.[1] ?? false);
    levels.set(`${tankId} ${at}`, [toGrams(bookKg), stated]);
  }
  return Object.fromEntries([...levels].toSorted(([a], [b]) => (a < b ? -1 : 1)));
};

/** All that a ledger says of what happened: accounts, levels, rows of flights and sorties, tanks. */
const said = (site: Site) => ({
  balances: Object.fromEntries(balances(site)),
  levels: levelsOf(site),
  flights: site.store.entities().flight,
  sorties: site.store.entities().sortie,
  tanks: site.store.entities().tank.map(({ id }) => id),
});

/** Every mass of an input times a factor in whole grams, every instant of it later by so much. */
const changed = <T>(value: T, factor: number, laterMs: number, name = ""): T => {
  if (typeof value === "number") {
    if (name.endsWith("Kg")) return (gramsOf(value * factor) / 1000) as T;
    return (/^at$|At$/.test(name) ? value + laterMs : value) as T;
  }
  if (Array.isArray(value)) return value.map((each: unknown) => changed(each, factor, laterMs)) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [key, changed(each as unknown, factor, laterMs, key)]),
  ) as T;
};

const moments = fc.array(fc.tuple(fc.nat(1000), fc.double({ min: 0, max: 0.95, noNaN: true })), {
  minLength: 3,
  maxLength: 14,
});
const other = fc.record({
  pick: fc.nat(1000),
  factor: fc.constantFrom(1, 1, 0.5, 0.9, 1.05, 1.4),
  laterMs: fc.constantFrom(0, 0, -DAY, 0.25 * DAY, 3 * DAY, -60_000, 12 * DAY),
});

/** A gauge of a tank that an event moved, read in the very minute of it and written down after it. */
const gaugeOf = (site: Site, at: number, n: number, share: number): Written | null => {
  const moved = site.store
    .tankMovements(at - 1, at)
    .filter(({ tankId }) =>
      site.store.entities().tank.some(({ id, ownerKind }) => id === tankId && ownerKind === "depot"),
    );
  const [first] = moved;
  if (first === undefined) return null;
  const massKg = gramsOf(first.bookKg * (0.8 + 0.2 * share)) / 1000;
  const input = { id: `gauge-${n}`, tankId: first.tankId, at, massKg, sigmaKg: 5, takeIntoBooks: true, note: "" };
  return { record: "record.reading", input };
};

const replay = (name: string, document: ReturnType<typeof documentOf>, written: readonly Written[]): Site | null => {
  const site = siteWith(name, document);
  const isWhole = written.every((one) =>
    tried(() => site.store.commit(makeOf(one)(site.store, site.recorder)) ?? true),
  );
  if (isWhole) return site;
  site.store.close();
  return null;
};

/**
 * The export to the byte, but for the journal, which forgets nothing, and for the names of the entries that the file writes
 * again when something is undone.
 */
const rowsOf = ({ entries, readings, ...rest }: LedgerDocument): string => {
  const entryOf = (id: string | null) => entries.find((entry) => entry.id === id);
  const linked = readings.map(({ entryId, ...row }) => ({ ...row, entry: entryOf(entryId)?.postings ?? null }));
  return JSON.stringify({ ...rest, readings: linked });
};

const withoutIds = (site: Site) =>
  inForce(site)
    .map(({ id: _id, author: _author, recordedAt: _at, postings, ...rest }) => {
      // A line of nothing may fill an entry up to two.
      const lines = postings.filter(({ account, grams }) => grams !== 0 || account.kind === "tank");
      return JSON.stringify({ ...rest, lines: lines.map((row) => JSON.stringify(row)).toSorted() });
    })
    .toSorted();

it("a record put right is as if only the right one had been, and undo leaves nothing of it", () => {
  const counts = { same: 0, other: 0, alike: 0, refused: 0 };
  fc.assert(
    fc.property(lawPlans, moments, other, (random, picks, { pick, factor, laterMs }) => {
      const document = documentOf(random);
      const site = siteWith("Here", document);
      const sites = [site];
      try {
        const written: Written[] = [];
        const heard: Site = {
          ...site,
          record: (name, input) => {
            site.record(name, input);
            written.push({ record: name, input });
          },
        };
        for (const [n, [which, share]] of picks.entries()) {
          const { plan, seen } = viewOf(site);
          const events = possibleOf(plan, seen, site.store.readings().length);
          const event =
            which % 5 === 0 || events.length === 0 ? looked(plan, seen, share, which) : events[which % events.length];
          if (event === null || event === undefined || !record(heard, event) || which % 3 > 0) continue;
          const gauge = gaugeOf(site, event.at, n, share);
          if (gauge !== null) tried(() => heard.record("record.reading", gauge.input as RecordInput<"record.reading">));
        }
        const subjects = inForce(site).filter(({ subjectKey }) => subjectKey !== null);
        const wrong = subjects[pick % Math.max(1, subjects.length)];
        if (wrong === undefined) return;
        const recorded = tried(() => recordedAs(site.store, wrong.id));
        if (recorded === null) return;
        const what = { wrong: { kind: "entry" as const, id: wrong.id }, reason: "slip" };
        const right: RecordedAs = { ...recorded, input: changed(recorded.input, factor, laterMs) } as RecordedAs;
        const isSame = factor === 1 && laterMs === 0;
        const before = {
          said: said(site),
          forecast: viewOf(site),
          inForce: withoutIds(site),
          rows: site.store.document(),
        };
        const step = tried(() => recordCorrection(site.store, what, makeOf(right), site.recorder));
        // Looking at it changes nothing.
        expect(site.store.document()).toEqual(before.rows);
        if (step === null) {
          expect(isSame).toBe(false);
          counts.refused += 1;
          return;
        }
        site.store.commit(step);
        const after = said(site);
        expect(unbalanced(viewOf(site).seen.balances)).toEqual([]);
        expect(site.store.verify()).toMatchObject({ isSound: true });
        if (isSame) {
          counts.same += 1;
          expect(after).toEqual(before.said);
          expect(withoutIds(site)).toEqual(before.inForce);
          expect(difference(before.forecast.seen, viewOf(site).seen, 0, 0)).toBeNull();
        } else {
          counts.other += 1;
          const index = written.findIndex(
            ({ record: name, input }) =>
              name === recorded.record &&
              JSON.stringify([(input as { flightId?: string }).flightId, (input as { sortieId?: string }).sortieId]) ===
                JSON.stringify([
                  (recorded.input as { flightId?: string }).flightId,
                  (recorded.input as { sortieId?: string }).sortieId,
                ]),
          );
          const only = replay("Only", document, written.with(index, right));
          if (only !== null) {
            sites.push(only);
            counts.alike += 1;
            expect(after).toEqual(said(only));
            expect(difference(viewOf(only).seen, viewOf(site).seen, 0, 1e-9)).toBeNull();
          }
        }
        site.store.undo("Ada", day(301));
        expect(said(site)).toEqual(before.said);
        expect(withoutIds(site)).toEqual(before.inForce);
        expect(rowsOf(site.store.document())).toBe(rowsOf(before.rows));
        site.store.redo("Ada", day(302));
        expect(said(site)).toEqual(after);
      } finally {
        for (const each of sites) each.store.close();
      }
    }),
    { numRuns: RUNS, endOnFailure: RUNS > 1000, ...DRAWN },
  );
  if (RUNS >= 200) console.info(counts);
  expect(counts.same + counts.other).toBeGreaterThan(RUNS / 5);
}, 3_600_000);
