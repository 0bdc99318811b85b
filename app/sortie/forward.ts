/** The forward pass: flies the found load step by step, to prove that it comes back to the end state. */
import { missingCase } from "../ground/missing-case.ts";
import { PlanningError } from "../ground/failure.ts";
import { levelAfter } from "../storage/level.ts";
import type { CompiledSortie } from "./compile.ts";
import { addTo, cacheRow, sumRow, type StepMasses } from "./step-masses.ts";

/** The forward run must meet the end state to this share of the load. */
export const CLOSURE_LIMIT = 1e-9;

/** Propellant aboard at the end of a sortie that leaves with its load and leaves its caches, kg. */
export const runForward = (sortie: CompiledSortie, masses: StepMasses): Float64Array => {
  const { n } = masses;
  const stock = masses.stock.slice(0, n);
  const caches = sortie.caches.map(() => new Float64Array(n));
  sortie.steps.forEach((step, i) => {
    switch (step.kind) {
      case "burn": {
        const burned = -((sortie.hardware[i] ?? 0) + sumRow(stock, 0, n)) * Math.expm1(-(sortie.exponents[i] ?? 0));
        for (let p = 0; p < n; p++) addTo(stock, p, -burned * (step.shares[p] ?? 0));
        break;
      }
      case "expel":
        for (let p = 0; p < n; p++) addTo(stock, p, -(step.masses[p] ?? 0));
        break;
      case "stay":
        for (let p = 0; p < n; p++)
          stock[p] = levelAfter(stock[p] ?? 0, step.k[p] ?? 0, (step.c[p] ?? 0) + (step.draw[p] ?? 0), step.days);
        sortie.caches.forEach((cache, q) => {
          const held = caches[q];
          if (!held || i <= cache.leftAt || i >= cache.takenAt) return;
          for (let p = 0; p < n; p++) held[p] = levelAfter(held[p] ?? 0, cache.k[p] ?? 0, cache.c[p] ?? 0, step.days);
        });
        break;
      case "drop":
        for (let p = 0; p < n; p++) addTo(stock, p, -(step.left[p] ?? 0));
        break;
      case "leave": {
        const from = cacheRow(sortie, step.cache, i + 1);
        const put = masses.cached.slice(from, from + n);
        caches[step.cache] = put;
        for (let p = 0; p < n; p++) addTo(stock, p, -(put[p] ?? 0));
        break;
      }
      case "take":
        for (let p = 0; p < n; p++) addTo(stock, p, caches[step.cache]?.[p] ?? 0);
        break;
      default:
        return missingCase(step);
    }
  });
  return stock;
};

/**
 * The largest difference between the forward run's end and the end state, as a share of the propellant's load.
 * Throws "defect" above {@link CLOSURE_LIMIT}: then the two passes disagree and no number of the sheet may be trusted.
 */
export const provenClosure = (sortie: CompiledSortie, masses: StepMasses): number => {
  const flown = runForward(sortie, masses);
  const end = sortie.steps.length * masses.n;
  let worst = 0;
  for (let p = 0; p < masses.n; p++) {
    const difference = Math.abs((flown[p] ?? 0) - (masses.stock[end + p] ?? 0));
    worst = Math.max(worst, difference / Math.max(masses.stock[p] ?? 0, 1e-3));
  }
  if (!(worst <= CLOSURE_LIMIT))
    throw new PlanningError(
      "defect",
      `The sortie flown forwards misses its end state by ${worst.toExponential(1)} of the load; please report this profile.`,
    );
  return worst;
};
