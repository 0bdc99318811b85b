/**
 * The law of records where more happens than what was forecast: flights are lost, entries are written by hand, readings are
 * imported and booked, and another site's records are merged, in any order with what is recorded as it was forecast.
 */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { unbalanced } from "../../app/forecast/balance.ts";
import { DAY, START } from "../app/forecast/small-plan.ts";
import { type Site, siteWith } from "../app/merge/sites.ts";
import { stepWith } from "../app/records/hand-ledger.ts";
import { deeds } from "./law-deeds.ts";
import { difference, documentOf, lawPlans, viewOf } from "./law-events.ts";

const RUNS = Number(process.env["COLDSTOCK_LAW_RUNS"] ?? 12);
const LONG = { numRuns: RUNS, endOnFailure: RUNS > 1000 };

const choices = fc.array(
  fc.tuple(fc.nat(deeds.length - 1), fc.nat(1000), fc.double({ min: 0, max: 0.95, noNaN: true })),
  { maxLength: 12 },
);
type Choices = readonly (readonly [number, number, number])[];

/** What was measured and taken into the books stands there, to the gram, whatever was recorded before or after it. */
const expectMeasuredLevels = ({ store }: Site): void => {
  const movements = store.tankMovements(-1, Number.MAX_SAFE_INTEGER);
  for (const { tankId, at, massKg, entryId, isWithdrawn } of store.readings()) {
    if (entryId === null || isWithdrawn) continue;
    const stated = movements.flatMap((row) => (row.tankId === tankId && row.at === at ? [row.statedKg] : []));
    expect([tankId, at, stated]).toEqual([tankId, at, expect.arrayContaining([massKg])]);
  }
};

/** Does all of it, and says what each did. */
const tryAll = async (site: Site, picks: Choices, check: (was: string[]) => void = () => undefined) => {
  const counts = new Map<string, number>();
  const was: string[] = [];
  for (const [which, pick, share] of picks) {
    const { plan, seen } = viewOf(site);
    const done = await deeds[which]!(site, plan, seen, pick, share);
    if (done === null) continue;
    was.push(`${done.what} from day ${((done.fromAt - START) / DAY).toFixed(3)}`);
    counts.set(deeds[which]!.name, (counts.get(deeds[which]!.name) ?? 0) + 1);
    const after = viewOf(site);
    if (after.seen.sorties.some(({ isOut, lines }) => isOut && lines.some(({ surplusKg }) => surplusKg > 1)))
      counts.set("surplus aboard", (counts.get("surplus aboard") ?? 0) + 1);
    expect(unbalanced(after.seen.balances)).toEqual([]);
    expectMeasuredLevels(site);
    if (done.expected !== null) {
      const fromAt = Math.max(done.fromAt, plan.asOfAt, after.plan.asOfAt);
      const found = difference(done.expected, after.seen, fromAt, 1e-6 + done.toleranceKg);
      if (found !== null) throw new Error(`${found}\n  after ${was.join("\n  after ")}`);
    }
    check(was);
  }
  return { counts };
};

it("what happens as it was forecast changes nothing later, whatever else happens", async () => {
  const counts = new Map<string, number>();
  await fc.assert(
    fc.asyncProperty(lawPlans, choices, async (random, picks) => {
      const site = siteWith("Law", documentOf(random));
      try {
        for (const [what, n] of (await tryAll(site, picks)).counts) counts.set(what, (counts.get(what) ?? 0) + n);
      } finally {
        site.store.close();
      }
    }),
    LONG,
  );
  if (RUNS < 500) return;
  console.info(Object.fromEntries(counts));
  for (const name of [...deeds.map((deed) => deed.name), "surplus aboard"])
    expect([name, (counts.get(name) ?? 0) > 0]).toEqual([name, true]);
}, 7_200_000);

it("the forecast after the latest record does not depend on the as-of instant, whatever else happened", async () => {
  const laters = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 3 });
  await fc.assert(
    fc.asyncProperty(lawPlans, choices, laters, async (random, picks, later) => {
      const site = siteWith("Law", documentOf(random));
      try {
        await tryAll(site, picks);
        const { plan, seen } = viewOf(site);
        for (const share of later) {
          const asOfAt = Math.round(plan.asOfAt + share * (plan.horizonAt - plan.asOfAt));
          site.store.commit(stepWith({ asOfAt }));
          const found = difference(seen, viewOf(site).seen, asOfAt, 1e-6);
          if (found !== null) throw new Error(`as of day ${((asOfAt - START) / DAY).toFixed(3)}: ${found}`);
        }
      } finally {
        site.store.close();
      }
    }),
    LONG,
  );
}, 7_200_000);
