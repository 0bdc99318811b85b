/**
 * The law of records: an event recorded exactly as it was forecast changes no later level and no status, whatever else is
 * or is not recorded yet; and the forecast after the latest record does not depend on the as-of instant.
 */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { DAY, START } from "../app/forecast/small-plan.ts";
import { siteWith } from "../app/merge/sites.ts";
import { stepWith } from "../app/records/hand-ledger.ts";
import { difference, documentOf, lawPlans, looked, possibleOf, record, viewOf } from "./law-events.ts";

const RUNS = Number(process.env["COLDSTOCK_LAW_RUNS"] ?? 60);

const choices = fc.array(fc.tuple(fc.nat(1000), fc.double({ min: 0, max: 0.95, noNaN: true })), { maxLength: 12 });

it("an event recorded as it was forecast changes no later level and no status, whatever else is recorded", () => {
  let recorded = 0;
  fc.assert(
    fc.property(lawPlans, choices, (random, picks) => {
      const site = siteWith("Law", documentOf(random));
      const done: string[] = [];
      try {
        let { plan, seen } = viewOf(site);
        for (const [pick, share] of picks) {
          const events = possibleOf(plan, seen, site.store.readings().length);
          const event =
            pick % 4 === 0 || events.length === 0 ? looked(plan, seen, share, pick) : events[pick % events.length];
          if (event === null || event === undefined || !record(site, event)) continue;
          recorded += 1;
          done.push(`${event.what} on day ${((event.at - START) / DAY).toFixed(3)}`);
          const after = viewOf(site);
          const fromAt = Math.max(event.at, plan.asOfAt, after.plan.asOfAt);
          const found = difference(seen, after.seen, fromAt, 1e-6 + event.roundedKg);
          if (found !== null) throw new Error(`${found}\n  after ${done.join("\n  after ")}`);
          ({ plan, seen } = after);
        }
      } finally {
        site.store.close();
      }
    }),
    { numRuns: RUNS, endOnFailure: RUNS > 1000 },
  );
  expect(recorded).toBeGreaterThan(RUNS);
}, 3_600_000);

it("the forecast after the latest record does not depend on the as-of instant", () => {
  fc.assert(
    fc.property(
      lawPlans,
      choices,
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 4 }),
      (random, picks, later) => {
        const site = siteWith("Law", documentOf(random));
        try {
          for (const [pick, share] of picks) {
            const { plan, seen } = viewOf(site);
            const events = possibleOf(plan, seen, site.store.readings().length);
            const event =
              pick % 4 === 0 || events.length === 0 ? looked(plan, seen, share, pick) : events[pick % events.length];
            if (event !== null && event !== undefined) record(site, event);
          }
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
      },
    ),
    { numRuns: RUNS, endOnFailure: RUNS > 1000 },
  );
}, 3_600_000);
