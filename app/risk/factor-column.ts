/** Factors and levels by column, and loss probabilities that are themselves uncertain. */
import { normalQuantile } from "./normal.ts";
import { BLOCK, fillUnits, nextUnit } from "./stream.ts";

const units = new Float64Array(BLOCK);

/** Log-normal factors of median 1; exactly 1 where sigma is 0. */
export const drawFactors = (out: Float64Array, at: number, sigma: number): void => {
  if (sigma === 0) {
    out.fill(1, at, at + BLOCK);
    return;
  }
  fillUnits(units, BLOCK);
  for (let r = 0; r < BLOCK; r += 1) out[at + r] = Math.exp(sigma * normalQuantile(units[r] as number));
};

/** Levels, kg: normal about `meanKg`, kept between empty and full; exactly `meanKg` where sigma is 0. */
export const drawLevels = (
  out: Float64Array,
  at: number,
  { meanKg, sigmaKg, maximumKg }: { readonly meanKg: number; readonly sigmaKg: number; readonly maximumKg: number },
): void => {
  if (sigmaKg === 0) {
    out.fill(meanKg, at, at + BLOCK);
    return;
  }
  fillUnits(units, BLOCK);
  // What is recorded above the maximum is there all the same: only the draw is kept below it.
  const most = Math.max(meanKg, maximumKg);
  for (let r = 0; r < BLOCK; r += 1)
    out[at + r] = Math.min(most, Math.max(0, meanKg + sigmaKg * normalQuantile(units[r] as number)));
};

/**
 * A gamma variate of shape ≥ 1, scale 1. Source: G. Marsaglia, W. W. Tsang, "A simple method for generating gamma
 * variables", ACM Transactions on Mathematical Software 26 (2000) 363. Takes as many numbers of the stream as it needs.
 */
const gamma = (shape: number): number => {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normalQuantile(nextUnit());
    const cube = 1 + c * x;
    if (cube <= 0) continue;
    const v = cube * cube * cube;
    if (Math.log(nextUnit()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
};

/** Loss probabilities after `successes` of `trials`: one minus Beta(successes + 1, failures + 1). */
export const drawLossProbabilities = (out: Float64Array, successes: number, trials: number): void => {
  for (let r = 0; r < BLOCK; r += 1) {
    const survives = gamma(successes + 1);
    const fails = gamma(trials - successes + 1);
    out[r] = fails / (survives + fails);
  }
};
