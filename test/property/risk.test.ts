/** The risk over random plans: certain inputs are the forecast to the bit, and the blocks of a run may be cut up in any way. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Uncertainty } from "../../app/entity/risk-input.ts";
import { compile } from "../../app/forecast/compile.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { lostKg, massKg } from "../../app/forecast/read-run.ts";
import { createReplicator, drawFor, replicate } from "../../app/risk/replication.ts";
import { riskModel } from "../../app/risk/risk-model.ts";
import { createKernel, runBlocks, tallyFor } from "../../app/risk/run-blocks.ts";
import { addTally } from "../../app/risk/tally.ts";
import { bytesOf, jobOf, withInputs } from "../app/risk/kernel-plan.ts";
import { day } from "../app/forecast/small-plan.ts";
import { randomPlan } from "./random-plan.ts";

const RUNS = Number(process.env["COLDSTOCK_RUNS"] ?? 60);
const DAYS = 30;
const plans = randomPlan({ days: DAYS, flights: 8, sorties: 6, constantLoss: true, betweenDepots: true });
const instants = [0, 0.25, 7, 12.5, 20, DAYS].map(day);

const every = { kind: "every" } as const;
const uncertain: readonly Uncertainty[] = [
  { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0.4, meanDays: 3 } },
  { quantity: "flight loss", of: every, law: { kind: "trials", successes: 8, trials: 9 } },
  { quantity: "grounding", of: every, law: { kind: "log-normal", noneShare: 0, meanDays: 5, sigma: 0.5 } },
  { quantity: "transfer loss", of: every, law: { kind: "log-normal factor", sigma: 0.3 } },
  {
    quantity: "sortie slip",
    of: every,
    law: { kind: "triangular", noneShare: 0.5, lowDays: 0, modeDays: 1, highDays: 4 },
  },
  { quantity: "sortie demand", of: every, law: { kind: "log-normal factor", sigma: 0.1 } },
  { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.5 } },
  {
    quantity: "cooler",
    of: every,
    law: { kind: "failures", meanBetweenDays: 10, meanRepairDays: 3, kPerDay: 0.05, cKgPerDay: 2 },
  },
  { quantity: "opening level", of: every, law: { kind: "share of maximum fill", sigma: 0.05 } },
];

test("with nothing uncertain every run is the forecast, to the bit, in levels, losses, outcomes and bands", () =>
  fc.assert(
    fc.property(plans, fc.nat(1000), (random, block) => {
      const plan = withInputs(random, []);
      const engine = createEngine(compile(plan));
      engine.watch(Float64Array.from(instants));
      const forecast = engine.go();
      const replicator = createReplicator(riskModel(jobOf(plan, { bandsAt: instants })));
      drawFor(replicator, block);
      for (const r of [0, 63]) {
        replicate(replicator, block, r, true);
        const { run } = replicator;
        expect([...run.sortieLoadedAt]).toEqual([...forecast.sortieLoadedAt]);
        expect([...run.sortieOutcome]).toEqual([...forecast.sortieOutcome]);
        run.plan.tankIds.forEach((_, tank) => {
          expect(massKg(run, tank)).toBe(massKg(forecast, tank));
          expect(lostKg(run, tank)).toBe(lostKg(forecast, tank));
        });
        expect([...replicator.engine.watchedKg]).toEqual([...engine.watchedKg]);
      }
    }),
    { numRuns: RUNS },
  ));

test("with everything uncertain, any cut of the blocks, by any kernels, added in any order, is the run in one go to the byte", () =>
  fc.assert(
    fc.property(
      plans,
      fc.shuffledSubarray([1, 2, 3, 4, 5, 6, 7], { minLength: 0, maxLength: 4 }),
      fc.infiniteStream(fc.nat(100)),
      (random, cuts, order) => {
        const job = jobOf(withInputs(random, uncertain), { seed: 11, bandsAt: instants });
        const kernel = createKernel(job);
        const whole = tallyFor(kernel, 0);
        runBlocks(kernel, whole, 0, 8);
        const edges = [0, ...cuts.toSorted((a, b) => a - b), 8];
        const parts = edges.slice(1).map((until, n) => {
          const own = createKernel(job);
          const tally = tallyFor(own, 0);
          runBlocks(own, tally, edges[n] ?? 0, until);
          return { tally, place: order.next().value ?? 0 };
        });
        const sum = tallyFor(kernel, 0);
        for (const { tally } of parts.toSorted((a, b) => a.place - b.place)) addTally(sum, tally);
        expect(bytesOf(sum)).toBe(bytesOf(whole));
      },
    ),
    { numRuns: RUNS / 2 },
  ));
