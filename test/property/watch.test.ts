/** Whatever the plan: nothing that is overdue, not supplied, below its reserve or due to leave is missing from the watch list. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { check } from "../../app/supply/check.ts";
import { watchList } from "../../app/supply/watch.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { randomPlan } from "./random-plan.ts";

const PLANS = Number(process.env["COLDSTOCK_WATCH_PLANS"] ?? 60);
const range = { days: 30, flights: 6, sorties: 6, constantLoss: true, betweenDepots: true };

it("holds each thing that must be watched, once, under its date, and nothing else", () => {
  fc.assert(
    fc.property(randomPlan(range), fc.integer({ min: 0, max: 400 }), (plan, days) => {
      const answer = check(plan);
      const items = watchList(plan, answer, answer, days);
      const of = (reason: string) => items.filter((item) => item.reason === reason);
      expect(new Set(items.map(({ id }) => id)).size).toBe(items.length);
      expect(items.map(({ at }) => at)).toEqual(items.map(({ at }) => at).toSorted((a, b) => a - b));

      const found = (kind: string) => answer.findings.filter((finding) => finding.kind === kind);
      const overdue = answer.findings.flatMap((finding) => (finding.kind === "overdue" ? [finding.id] : []));
      expect(
        of("overdue")
          .map(({ subject }) => subject.id)
          .toSorted(),
      ).toEqual(overdue.toSorted());
      // Overdue: its own date lies behind the as-of instant, not on it.
      for (const { at } of of("overdue")) expect(at).toBeLessThan(plan.asOfAt);

      const statuses = answer.sorties.filter(({ status }) => status !== "supplied").map(({ sortieId }) => sortieId);
      const told = ["short", "thin", "needs not stated"].flatMap((reason) => of(reason));
      expect(told.map(({ subject }) => subject.id).toSorted()).toEqual(statuses.toSorted());
      expect(of("below reserve")).toHaveLength(found("below reserve").length);
      expect(of("tank empty")).toHaveLength(found("tank empty").length);
      expect(of("engine change")).toHaveLength(found("engine change due").length);

      const leaving = answer.latestDeparture.filter(
        ({ flightId, at }) => at !== null && at <= plan.asOfAt + days * DAY_MS && !overdue.includes(flightId),
      );
      expect(new Map(of("must leave").map(({ subject, at }) => [subject.id, at]))).toEqual(
        new Map(leaving.map(({ flightId, at }) => [flightId, at])),
      );
    }),
    { numRuns: PLANS },
  );
});

it("has no flight that must leave as long as that is not worked out", () => {
  fc.assert(
    fc.property(randomPlan(range), (plan) => {
      const answer = check(plan);
      const whole = watchList(plan, answer, answer, 10_000);
      expect(watchList(plan, answer, null)).toEqual(whole.filter(({ reason }) => reason !== "must leave"));
    }),
    { numRuns: Math.ceil(PLANS / 4) },
  );
});
