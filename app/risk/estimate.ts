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

/** The first and the last bin that hold something; null: none does. */
const spanOf = (counts: Counts): { readonly first: number; readonly last: number } | null => {
  let last = counts.length - 1;
  while (last >= 0 && counts[last] === 0) last -= 1;
  if (last < 0) return null;
  let first = 0;
  while (counts[first] === 0) first += 1;
  return { first, last };
};

/**
 * The quantiles, for rising p, of what was counted in bins, each with its 95 % interval from the order statistics
 * (binomial); null: fewer than 20 cases. `valueOf(bin, share)` is the value at a place in a bin, whose values are taken
 * to lie evenly over it. One walk through the bins: there are many.
 */
export const quantilesOf = (
  counts: Counts,
  shares: readonly number[],
  valueOf: (bin: number, share: number) => number,
): readonly QuantileEstimate[] | null => {
  const span = spanOf(counts);
  const n = totalOf(counts);
  if (span === null || n < 20) return null;
  const ranks = shares.flatMap((p) => {
    const half = TWO_SIDED_95 * Math.sqrt(n * p * (1 - p));
    return [Math.floor(n * p - half), Math.ceil(n * p), Math.ceil(n * p + half) + 1];
  });
  const kept = ranks.map((k) => Math.min(n, Math.max(1, k)));
  const values = new Map<number, number>();
  let bin = span.first;
  let before = 0;
  for (const k of kept.toSorted((a, b) => a - b)) {
    for (; before + (counts[bin] as number) < k; bin += 1) before += counts[bin] as number;
    values.set(k, valueOf(bin, (k - before) / (counts[bin] as number)));
  }
  const at = (index: number): number => values.get(kept[index] ?? 0) ?? Number.NaN;
  return shares.map((_, index) => ({ low: at(3 * index), value: at(3 * index + 1), high: at(3 * index + 2) }));
};

/** Counts of equal bins drawn together to at most `most` bins that hold something; edges in the unit of `edgeOf`. */
export const histogramOf = (counts: Counts, most: number, edgeOf: (bin: number) => number): Histogram => {
  const { first, last } = spanOf(counts) ?? { first: 0, last: 0 };
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
