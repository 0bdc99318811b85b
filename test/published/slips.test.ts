/**
 * Published figures of slips, reproduced from their stated parameters.
 * 1. Planned dates of one cargo programme against what flew (12 flights; the plan is published, the actual dates are
 *    from memory): 158 days late on average, about 0.31 day later for each day of lead time.
 * 2. Launch attempts: 135 launches in 255 attempts (published; IEEE Aerospace Conference 2014,
 *    doi 10.1109/AERO.2014.6836415).
 */
import { expect, test } from "vitest";
import { defaultInputs } from "../../app/risk/default-inputs.ts";
import { drawSlips, slipSampler } from "../../app/risk/slip-column.ts";
import { noneShareOf, quantileOfAll } from "../../app/risk/slip-law.ts";
import { BLOCK, keyHash, seedStream } from "../../app/risk/stream.ts";
import type { SlipLaw } from "../../app/entity/risk-input.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";

const slip = defaultInputs["flight slip"].uncertainty.law as SlipLaw;
const sortieSlip = defaultInputs["sortie slip"].uncertainty.law as SlipLaw;

test("a flight planned as far ahead as those of the cargo programme slips by its 158 days on average, drawn", () => {
  // 158 / 0.31: the lead time at which the two published figures meet.
  const leadDays = 509.677;
  const sampler = slipSampler(slip, leadDays, "drawn");
  const column = new Float64Array(BLOCK);
  const blocks = 2000;
  let sum = 0;
  for (let block = 0; block < blocks; block += 1) {
    seedStream(1, keyHash(1, "cargo"), block);
    drawSlips(column, 0, sampler);
    for (const ms of column) sum += ms / DAY_MS;
  }
  const n = blocks * BLOCK;
  // Exponential: the standard error of the mean is mean/√n; 4 of them.
  expect(Math.abs(sum / n - 158)).toBeLessThan((4 * 158) / Math.sqrt(n));
});

test("for any lead time the default is no rosier than 0.31 day a day", () => {
  const parts = 100_000;
  for (const leadDays of [30, 100, 365, 1000]) {
    // The mean of all cases: their quantiles at the middles of equal parts; what the last part leaves out is below 1e-5 of it.
    let sum = 0;
    for (let n = 0; n < parts; n += 1) sum += quantileOfAll(slip, (n + 0.5) / parts, leadDays);
    expect(sum / parts).toBeGreaterThan(0.31 * leadDays * (1 - 1e-5));
  }
});

test("a sortie is ready at its first try about as often as a launch attempt succeeds: 135 of 255", () => {
  expect(Math.abs(noneShareOf(sortieSlip) - 135 / 255)).toBeLessThan(0.005);
});
