/**
 * What matters: Sobol' indices of first order and total, with intervals. Estimators: first order by A. Saltelli et al.,
 * "Variance based sensitivity analysis of model output", Comput. Phys. Commun. 181 (2010) 259, eq. (b) of table 2; total by
 * M. J. W. Jansen, Comput. Phys. Commun. 117 (1999) 35. Intervals: the bootstrap over rows (G. E. B. Archer, A. Saltelli, I.
 * M. Sobol', J. Stat. Comput. Simul. 58 (1997) 99); the points of a Sobol' sequence lie more evenly than the random ones
 * that it supposes, so that the intervals are rather too wide than too narrow.
 */
import { createStream } from "./small-stream.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
}

export interface InputIndex {
  /** Place among the inputs of the study. */
  readonly input: number;
  /** Share of the variance that would go if this input alone were known. */
  readonly first: number;
  readonly firstInterval: Interval;
  /** Share of the variance that would stay if all but this one were known: with all it does together with others. */
  readonly total: number;
  readonly totalInterval: Interval;
}

export interface Indices {
  readonly rows: number;
  readonly mean: number;
  readonly variance: number;
  /** The greatest total first; empty: the outcome does not vary. */
  readonly inputs: readonly InputIndex[];
}

const RESAMPLES = 400;
const SEED = 20_260_000;

interface Sums {
  /** Of the resampled rows: f(A), f(A)², and the same of B together. */
  readonly mean: number;
  readonly variance: number;
  readonly first: number[];
  readonly total: number[];
}

/** `values[row × (inputs + 2) + place]`: f at A, at B, and at A with each input of B. `rowOf` names the rows that count. */
const estimate = (values: Float64Array, inputs: number, rows: number, rowOf: (n: number) => number): Sums => {
  const width = inputs + 2;
  let sum = 0;
  for (let n = 0; n < rows; n += 1) {
    const at = rowOf(n) * width;
    sum += (values[at] as number) + (values[at + 1] as number);
  }
  const mean = sum / (2 * rows);
  let squares = 0;
  const first = Array.from({ length: inputs }, () => 0);
  const total = Array.from({ length: inputs }, () => 0);
  for (let n = 0; n < rows; n += 1) {
    const at = rowOf(n) * width;
    // About the mean: the estimators do not change, but lose fewer digits.
    const a = (values[at] as number) - mean;
    const b = (values[at + 1] as number) - mean;
    squares += a * a + b * b;
    for (let input = 0; input < inputs; input += 1) {
      const ab = (values[at + 2 + input] as number) - mean;
      first[input] = (first[input] as number) + b * (ab - a);
      total[input] = (total[input] as number) + (a - ab) ** 2 / 2;
    }
  }
  const variance = squares / (2 * rows);
  const share = (part: number): number => (variance > 0 ? part / rows / variance : 0);
  return { mean, variance, first: first.map(share), total: total.map(share) };
};

const interval = (drawn: readonly number[]): Interval => {
  const sorted = drawn.toSorted((a, b) => a - b);
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))] as number;
  return { low: at(0.025), high: at(0.975) };
};

/**
 * Indices of `inputs` inputs from the outcomes of a "what matters" design, point by point. 95 % intervals, the same for
 * the same outcomes. `values.length` is a multiple of inputs + 2.
 */
export const sobolIndices = (values: Float64Array, inputs: number): Indices => {
  const rows = values.length / (inputs + 2);
  const found = estimate(values, inputs, rows, (n) => n);
  // What is left of rounding is no variance.
  const isStill = found.variance <= 1e-24 * (1 + found.mean ** 2);
  if (isStill) return { rows, mean: found.mean, variance: 0, inputs: [] };
  const next = createStream(SEED);
  const drawn = Array.from({ length: RESAMPLES }, () => {
    const picked = Uint32Array.from({ length: rows }, () => Math.floor(next() * rows));
    return estimate(values, inputs, rows, (n) => picked[n] as number);
  });
  const indices = Array.from({ length: inputs }, (_, input): InputIndex => ({
    input,
    first: found.first[input] as number,
    firstInterval: interval(drawn.map(({ first }) => first[input] as number)),
    total: found.total[input] as number,
    totalInterval: interval(drawn.map(({ total }) => total[input] as number)),
  }));
  return {
    rows,
    mean: found.mean,
    variance: found.variance,
    inputs: indices.toSorted((a, b) => b.total - a.total || a.input - b.input),
  };
};
