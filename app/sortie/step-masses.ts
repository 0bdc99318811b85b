/** The masses of a sortie by propellant and step, in flat arrays that both passes fill. */
import type { CompiledSortie } from "./compile.ts";

export interface StepMasses {
  /** Number of propellants. */
  readonly n: number;
  /** Aboard before each step, and at the end: [step·n + propellant], kg. */
  readonly stock: Float64Array;
  /** In each cache before each step: [(cache·(steps + 1) + step)·n + propellant], kg. */
  readonly cached: Float64Array;
}

export const emptyStepMasses = (sortie: CompiledSortie): StepMasses => {
  const n = sortie.propellantIds.length;
  const states = sortie.steps.length + 1;
  return { n, stock: new Float64Array(states * n), cached: new Float64Array(states * n * sortie.caches.length) };
};

/** Where a cache's masses before a step begin in `cached`. */
export const cacheRow = (sortie: CompiledSortie, cache: number, step: number): number =>
  (cache * (sortie.steps.length + 1) + step) * sortie.propellantIds.length;

/** Sum of `n` values from an index on. */
export const sumRow = (row: Float64Array, from: number, n: number): number => {
  let sum = 0;
  for (let p = 0; p < n; p++) sum += row[from + p] ?? 0;
  return sum;
};

/** Adds to one value. */
export const addTo = (row: Float64Array, index: number, value: number): void => {
  row[index] = (row[index] ?? 0) + value;
};

/** The craft's whole mass before a step (or, with the number of steps, at the end), kg. */
export const massAt = (sortie: CompiledSortie, masses: StepMasses, step: number): number =>
  (sortie.hardware[step] ?? 0) + sumRow(masses.stock, step * masses.n, masses.n);
