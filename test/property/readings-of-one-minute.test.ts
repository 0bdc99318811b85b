/**
 * Gauge readings of one minute, up to eight, with something vented between them and a record that comes late: whichever are
 * taken back, in whatever order, the books hold what the last of those that stay read, less what was vented after it.
 */
import * as fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import type { LedgerStore } from "../../app/contract/store.ts";
import { recordEntry } from "../../app/records/record-entry.ts";
import { recordReading } from "../../app/records/record-reading.ts";
import { recordWithdrawal } from "../../app/records/record-reverse.ts";
import { day, handLedger, recorder, temporaryFolder } from "../app/records/hand-ledger.ts";
import { runs } from "../suite/runs.ts";

const folder = temporaryFolder();
const open: LedgerStore[] = [];
afterAll(() => open.forEach((store) => store.close()));

const AT = day(37);
const TANK = "mere-lh2";
const VENT_KG = 10;

/** What happens in the minute: a level read, in kg; something vented; a reading of a week before, which comes late. */
type Deed = number | "vent" | "late";
const deed: fc.Arbitrary<Deed> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(300, 400, 500, 600) },
  { weight: 1, arbitrary: fc.constant("vent" as const) },
  { weight: 1, arbitrary: fc.constant("late" as const) },
);

const read = (store: LedgerStore, id: string, at: number, massKg: number): void =>
  store.commit(
    recordReading(store, { id, tankId: TANK, at, massKg, sigmaKg: 5, takeIntoBooks: true, note: "" }, recorder),
  );

const vent = (store: LedgerStore, id: string): void => {
  const line = (kind: "tank" | "vented", ownerId: string, kg: number) => ({
    account: { kind, ownerId },
    propellantId: "lh2",
    grams: kg * 1000,
  });
  const postings = [line("tank", TANK, -VENT_KG), line("vented", "mere", VENT_KG)];
  store.commit(recordEntry(store, { id, at: AT, kind: "vent", subjectKey: null, note: "", postings }, recorder));
};

/** The level after these deeds, by hand; null: no reading of the minute is left. */
const levelAfter = (deeds: readonly Deed[]): number | null =>
  deeds.reduce<number | null>((level, what) => {
    if (what === "late") return level;
    if (what === "vent") return level === null ? null : level - VENT_KG;
    return what;
  }, null);

test("the books hold what the last of those that stay read", () => {
  fc.assert(
    fc.property(
      fc.array(deed, { minLength: 2, maxLength: 8 }),
      fc.array(fc.nat(7), { minLength: 1, maxLength: 8 }),
      (deeds, order) => {
        const store = handLedger(folder);
        open.push(store);
        let lateDay = 20;
        deeds.forEach((what, n) => {
          if (what === "vent") vent(store, `vent-${n}`);
          else if (what === "late") read(store, `late-${n}`, day((lateDay += 1)), 900 - n);
          else read(store, `reading-${n}`, AT, what);
        });
        const stay = new Map(deeds.entries());
        const expectLevel = (): void => {
          const level = levelAfter([...stay.values()]);
          if (level !== null) expect(store.balanceKg(`tank/${TANK}`, "lh2")).toBe(level);
          expect(store.verify()).toMatchObject({ isSound: true });
        };
        expectLevel();
        for (const nth of order) {
          const readings = [...stay].filter(([, what]) => typeof what === "number");
          const gone = readings[nth % Math.max(1, readings.length)];
          if (gone === undefined) return;
          store.commit(recordWithdrawal(store, { readingId: `reading-${gone[0]}`, reason: "" }, recorder));
          stay.delete(gone[0]);
          expectLevel();
        }
      },
    ),
    { numRuns: runs(60) },
  );
});
