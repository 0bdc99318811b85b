/** What a benchmark is: the figures it gives, their limits, and how a figure is taken (median of several runs). */

export interface BenchFigure {
  /** What was measured, in words: "one forecast with its supply statuses". Unique within the whole run. */
  readonly name: string;
  readonly value: number;
  /** "ms", "µs", "kg", "1/s" … */
  readonly unit: string;
  /** The figure must not be above this (in the same unit); absent: reported only. */
  readonly limit?: number;
  /** Name of another figure of the same unit in this run; the table shows value / that value beside the absolute figure. */
  readonly ratioTo?: string;
  readonly note?: string;
}

export interface Bench {
  readonly name: string;
  /** Throws {@link BenchUnavailable} where the machine lacks what the bench needs; any other throw fails the run. */
  run(): Promise<readonly BenchFigure[]> | readonly BenchFigure[];
}

/** The bench cannot run on this machine; the message says what is missing and how to get it. */
export class BenchUnavailable extends Error {}

/** The middle of the numbers (mean of the two middle ones for an even count). Throws on an empty list. */
export const median = (numbers: readonly number[]): number => {
  const sorted = numbers.toSorted((a, b) => a - b);
  const upper = sorted[sorted.length >> 1];
  if (upper === undefined) throw new Error("the median of no numbers");
  const lower = sorted[(sorted.length - 1) >> 1] ?? upper;
  return (lower + upper) / 2;
};

/**
 * Median of `runs` timings of `fn`, in ms a call. For calls far shorter than a millisecond give `callsPerRun`: each run
 * then times that many calls together. One run goes before, untimed, so that the code is warm.
 */
export const medianOf = (runs: number, fn: () => void, callsPerRun = 1): number => {
  const once = (): number => {
    const from = performance.now();
    for (let call = 0; call < callsPerRun; call++) fn();
    return (performance.now() - from) / callsPerRun;
  };
  once();
  return median(Array.from({ length: runs }, once));
};

/** {@link medianOf} for work that is awaited, one call a run. The untimed first run is left out for `warm = false`. */
export const medianOfAsync = async (runs: number, fn: () => Promise<void>, warm = true): Promise<number> => {
  if (warm) await fn();
  const timings: number[] = [];
  for (let run = 0; run < runs; run++) {
    const from = performance.now();
    await fn();
    timings.push(performance.now() - from);
  }
  return median(timings);
};
