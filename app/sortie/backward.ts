/** The backward pass: from what must be aboard at the end to what must be aboard at departure. */
import { missingCase } from "../ground/missing-case.ts";
import { neededBefore } from "./aboard.ts";
import type { CompiledSortie } from "./compile.ts";
import { addTo, cacheRow, massAt, type StepMasses } from "./step-masses.ts";

/** Takes the caches that wait in orbit back over a step: only a stay costs them anything. */
const waitBackward = (sortie: CompiledSortie, masses: StepMasses, i: number): void => {
  const step = sortie.steps[i];
  sortie.caches.forEach((cache, q) => {
    if (i <= cache.leftAt || i >= cache.takenAt) return;
    const [here, after] = [cacheRow(sortie, q, i), cacheRow(sortie, q, i + 1)];
    for (let p = 0; p < masses.n; p++) {
      const mass = masses.cached[after + p] ?? 0;
      masses.cached[here + p] =
        step?.kind === "stay" ? neededBefore(mass, cache.k[p] ?? 0, cache.c[p] ?? 0, 0, step.days) : mass;
    }
  });
};

/** Fills the masses from the end state. Over a burn, m_before = m_after·e^exponent, split by the step's shares. */
export const runBackward = (sortie: CompiledSortie, endStock: Float64Array, masses: StepMasses): void => {
  const { n, stock, cached } = masses;
  stock.set(endStock, sortie.steps.length * n);
  for (let i = sortie.steps.length - 1; i >= 0; i--) {
    const step = sortie.steps[i];
    if (!step) continue;
    const here = i * n;
    const after = here + n;
    stock.copyWithin(here, after, after + n);
    waitBackward(sortie, masses, i);
    switch (step.kind) {
      case "burn": {
        const burned = massAt(sortie, masses, i + 1) * Math.expm1(sortie.exponents[i] ?? 0);
        for (let p = 0; p < n; p++) addTo(stock, here + p, burned * (step.shares[p] ?? 0));
        break;
      }
      case "expel":
        for (let p = 0; p < n; p++) addTo(stock, here + p, step.masses[p] ?? 0);
        break;
      case "stay":
        for (let p = 0; p < n; p++) {
          const [k, c, draw] = [step.k[p] ?? 0, step.c[p] ?? 0, step.draw[p] ?? 0];
          stock[here + p] = neededBefore(stock[after + p] ?? 0, k, c, draw, step.days);
        }
        break;
      case "drop":
        for (let p = 0; p < n; p++) addTo(stock, here + p, step.left[p] ?? 0);
        break;
      case "take": {
        const row = cacheRow(sortie, step.cache, i);
        const holds = sortie.caches[step.cache]?.holds;
        for (let p = 0; p < n; p++) {
          const needed = stock[after + p] ?? 0;
          const own = holds?.[p] ? Math.min(needed, step.arriving[p] ?? 0) : needed;
          stock[here + p] = own;
          cached[row + p] = needed - own;
        }
        break;
      }
      case "leave": {
        const row = cacheRow(sortie, step.cache, i + 1);
        for (let p = 0; p < n; p++) addTo(stock, here + p, cached[row + p] ?? 0);
        break;
      }
      default:
        return missingCase(step);
    }
  }
};
