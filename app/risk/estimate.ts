/** From counts to estimates with standard errors. */
import type { Estimate, Histogram, QuantileEstimate } from "./answer.ts";

/**
 * A share of n replications. At none or all of them the plain error is 0, which is not what is known: there it is taken
 * from (count + 1)/(n + 2), the first-level Bayesian estimate, so that "never in 1,000 runs" is not "never".
 */
export const shareOf = (count: number, n: number): Estimate => {
  if (n === 0) return { value: 0, standardError: 0.5 };
  const value = count / n;
  const known = count === 0 || count === n ? (count + 1) / (n + 2) : value;
  return { value, standardError: Math.sqrt((known * (1 - known)) / n) };
};

/** A mean from the sum and the sum of squares of n values. */
export const meanOf = (sum: number, squares: number, n: number): Estimate => {
  if (n === 0) return { value: 0, standardError: 0 };
  const value = sum / n;
  const variance = n < 2 ? 0 : Math.max(0, (squares - sum * value) / (n - 1));
  return { value, standardError: Math.sqrt(variance / n) };
};

/** Half-width of a 95 % interval in standard errors. */
export const TWO_SIDED_95 = 1.959_963_984_540_054;

type Counts = Float64Array | Uint32Array;

const totalOf = (counts: Counts): number => {
  let total = 0;
  for (let bin = 0; bin < counts.length; bin += 1) total += counts[bin] as number;
  return total;
};

/** The bin of the k-th smallest (from 1), and how far into the bin it lies if its values are spread evenly over it. */
const placeOf = (counts: Counts, k: number): { readonly bin: number; readonly share: number } => {
  let before = 0;
  for (let bin = 0; bin < counts.length; bin += 1) {
    const here = counts[bin] as number;
    if (before + here >= k) return { bin, share: here === 0 ? 0 : (k - before) / here };
    before += here;
  }
  return { bin: counts.length - 1, share: 1 };
};

/**
 * The p-quantile of what was counted in bins, with its 95 % interval from the order statistics (binomial); null: fewer
 * than 20 cases. `valueOf(bin, share)` is the value at a place in a bin.
 */
export const quantileOf = (
  counts: Counts,
  p: number,
  valueOf: (bin: number, share: number) => number,
): QuantileEstimate | null => {
  const n = totalOf(counts);
  if (n < 20) return null;
  const at = (k: number): number => {
    const { bin, share } = placeOf(counts, Math.min(n, Math.max(1, k)));
    return valueOf(bin, share);
  };
  const half = TWO_SIDED_95 * Math.sqrt(n * p * (1 - p));
  return { value: at(Math.ceil(n * p)), low: at(Math.floor(n * p - half)), high: at(Math.ceil(n * p + half) + 1) };
};

/** Counts of equal bins drawn together to at most `most` bins that hold something; edges in the unit of `edgeOf`. */
export const histogramOf = (counts: Counts, most: number, edgeOf: (bin: number) => number): Histogram => {
  let last = counts.length - 1;
  while (last > 0 && counts[last] === 0) last -= 1;
  let first = 0;
  while (first < last && counts[first] === 0) first += 1;
  const width = Math.max(1, Math.ceil((last - first + 1) / most));
  const edges: number[] = [edgeOf(first)];
  const drawn: number[] = [];
  for (let bin = first; bin <= last; bin += width) {
    let sum = 0;
    for (let n = bin; n < Math.min(bin + width, last + 1); n += 1) sum += counts[n] as number;
    drawn.push(sum);
    edges.push(edgeOf(bin + width));
  }
  return { edges, counts: drawn };
};
