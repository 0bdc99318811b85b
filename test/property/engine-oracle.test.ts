/** The engine against the one that it replaced, run by run: equal in every bit, whatever slips, is lost or loses faster. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compile } from "../../app/forecast/compile.ts";
import { REFERENCE, campaign } from "../bench/reference-campaign.ts";
import { compareEngines } from "../oracle/compare-engines.ts";
import { randomPlan } from "./random-plan.ts";
import { runs } from "../suite/runs.ts";

/** Of each of 2,000 random plans; the plain suite makes 20,000 runs. */
const RUNS = Number(process.env["COLDSTOCK_ENGINE_RUNS"] ?? 10);

describe("in every bit equal to the older engine", () => {
  it("for random plans with metered handovers, windows, waiting, depots that feed each other", () =>
    fc.assert(
      fc.property(
        randomPlan({ days: 20, flights: 8, sorties: 6, constantLoss: true, betweenDepots: true }),
        fc.nat(1_000_000),
        (plan, seed) => {
          expect(compareEngines(compile(plan), RUNS, seed)).toBeNull();
        },
      ),
      { numRuns: runs(400) },
    ));

  it("for random plans of two months", () =>
    fc.assert(
      fc.property(
        randomPlan({ days: 60, flights: 20, sorties: 12, constantLoss: false, betweenDepots: true }),
        fc.nat(1_000_000),
        (plan, seed) => {
          expect(compareEngines(compile(plan), RUNS, seed)).toBeNull();
        },
      ),
      { numRuns: runs(250) },
    ));

  it.each([
    ["as it is", {}],
    ["every handover metered", { rateKgPerDay: 8000 }],
    ["sorties that wait, with too little for all", { shortPolicy: "wait" as const, plenty: 1 }],
  ])("for the reference campaign, %s", (_, shape) => {
    expect(compareEngines(compile(campaign({ ...REFERENCE, ...shape })), 60, 7)).toBeNull();
  });

  it("and a difference of one part in 10¹⁵ would be seen", () => {
    const plan = compile(campaign(REFERENCE));
    const other = { ...plan, tankK: plan.tankK.map((k) => k * (1 + 2 ** -52)) };
    expect(compareEngines(plan, 3, 1, other)).toMatch(/level of tank|loss of tank/u);
  });
});
