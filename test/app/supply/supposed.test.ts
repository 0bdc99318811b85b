/** What is supposed of flights, against the engine's own inputs for losses and slips, which know nothing of changed plans. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import { compile } from "../../../app/forecast/compile.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import { glance } from "../../../app/supply/glance.ts";
import { caseFigures } from "../../../app/supply/case-figures.ts";
import { AS_PLANNED, type Supposed, supposedChanges, supposedWords } from "../../../app/supply/supposed.ts";
import { DAY, flight, lossPeriod, smallPlan, sortie } from "../forecast/small-plan.ts";
import { runs } from "../../suite/runs.ts";

const plan = smallPlan({
  opening: { a: 10_000 },
  flights: [flight("f", 15, 20, 5000), flight("g", 35, 40, 6000), flight("h", 75, 80, 4000, { status: "departed" })],
  sorties: [sortie("s", 30, 12_000), sortie("t", 60, 7000), sortie("u", 90, 3000)],
  lossPeriods: [lossPeriod("p", "a", 0.001, 5)],
});

const loadings = (changed: typeof plan): readonly (number | null)[] =>
  forecast(changed).sorties.map(({ loadedAt }) => loadedAt);

test("late and lost flights in any mix give what the engine gives with its own slips and losses", () => {
  const one = fc.record({ isLost: fc.boolean(), slipDays: fc.integer({ min: 0, max: 60 }), loadShare: fc.constant(1) });
  fc.assert(
    fc.property(one, one, (f: Supposed, g: Supposed) => {
      const supposed = { f, g };
      const engine = createEngine(compile(plan));
      for (const [key, { isLost, slipDays }] of Object.entries(supposed)) {
        const index = engine.run.plan.flightIds.indexOf(key);
        engine.input.flightIsLost[index] = isLost ? 1 : 0;
        engine.input.flightSlipMs[index] = slipDays * DAY;
      }
      const run = engine.go();
      const expected = run.plan.sortieIds.map((_, n) => {
        const at = run.sortieLoadedAt[n] ?? NaN;
        return Number.isNaN(at) ? null : at;
      });
      expect(loadings(applyChanges(plan, supposedChanges(plan, supposed)))).toEqual(expected);
    }),
    { numRuns: runs(60) },
  );
});

test("half a load brings half; a flight that has left can only be late", () => {
  const half = { ...AS_PLANNED, loadShare: 0.5 };
  const changes = supposedChanges(plan, { f: half, h: { isLost: true, slipDays: 3, loadShare: 0.5 } });
  const [f, h] = changes.map((change) => (change.op === "put" && change.kind === "flight" ? change.value : null));
  expect(f?.loads).toEqual([{ propellantId: "lox", loadedKg: 2500 }]);
  expect(h).toMatchObject({ status: "departed", loads: [{ loadedKg: 4000 }], departAt: plan.flights[2]?.departAt });
  expect((h?.arriveAt ?? 0) - (plan.flights[2]?.arriveAt ?? 0)).toBe(3 * DAY);
});

test("as planned is no change, and the words name what is supposed", () => {
  expect(supposedChanges(plan, { f: AS_PLANNED })).toEqual([]);
  expect(
    supposedWords(plan, { f: { ...AS_PLANNED, isLost: true }, g: { ...AS_PLANNED, slipDays: 1, loadShare: 0.6 } }),
  ).toBe("f lost; g 1 day late, with 60 % of its load");
});

test("a case in figures: 10 + 5 + 6 + 4 t against 12, 7 and 3 t without any loss", () => {
  const still = { ...plan, lossPeriods: [] };
  const seen = forecast(still);
  expect(caseFigures(still, seen, glance(still, seen))).toMatchObject({
    counts: { supplied: 3, thin: 0, short: 0, "not stated": 0 },
    // 25 t in all, 22 t drawn; the third finds 25 − 19 = 6 t for 3, the second 9 t for 7, the first 15 t for 12.
    worst: { sortieName: "s", marginKg: 3000, marginPercent: 25 },
    flights: 3,
    deliveredKg: 15_000,
    boiledOffKg: 0,
    firstShortAt: null,
  });
});
