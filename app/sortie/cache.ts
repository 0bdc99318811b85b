/** Caches: a tank left in orbit with the propellant for the way home, and taken up again. */
import type { z } from "zod";
import type { leaveCacheStep, ProfileStep, takeUpCacheStep } from "../entity/profile.ts";
import { refuse, stepLabel } from "./refusal.ts";

type LeaveStep = Readonly<z.infer<typeof leaveCacheStep>>;
type TakeStep = Readonly<z.infer<typeof takeUpCacheStep>>;

/** A cache; `holds` is 1 for the propellants it is for. */
export interface CompiledCache {
  readonly name: string;
  readonly holds: Float64Array;
  readonly k: Float64Array;
  readonly c: Float64Array;
  readonly volumeM3: Float64Array;
  readonly leftAt: number;
  readonly takenAt: number;
}

type Fill = <T extends { readonly propellantId: string }>(
  rows: readonly T[],
  value: (row: T) => number,
  field: string,
) => Float64Array;

/** Refuses a cache left twice under one name, never taken up, or taken up twice. */
export const compileCache = (steps: readonly ProfileStep[], step: LeaveStep, i: number, fill: Fill): CompiledCache => {
  const field = `steps.${String(i)}.cache`;
  const isLeftBefore = steps.slice(0, i).some((other) => other.kind === "leave cache" && other.cache === step.cache);
  if (isLeftBefore) refuse(`${stepLabel(step, i)} leaves the cache "${step.cache}" a second time`, field);
  const takers = steps.flatMap((other, j) => (other.kind === "take up cache" && other.cache === step.cache ? [j] : []));
  const [takenAt, again] = takers.filter((j) => j > i);
  if (takenAt === undefined) return refuse(`the cache "${step.cache}" is left and never taken up`, field);
  if (again !== undefined) refuse(`the cache "${step.cache}" is taken up twice`, `steps.${String(again)}.cache`);
  return {
    name: step.cache,
    holds: fill(step.tanks, () => 1, field),
    k: fill(step.tanks, (tank) => tank.kPerDay, field),
    c: fill(step.tanks, (tank) => tank.cKgPerDay, field),
    volumeM3: fill(step.tanks, (tank) => tank.volumeM3, field),
    leftAt: i,
    takenAt,
  };
};

/** The number of the cache that a step takes up; refuses one that was not left before. */
export const leftBefore = (caches: readonly CompiledCache[], step: TakeStep, i: number): number => {
  const cache = caches.findIndex(({ name }) => name === step.cache);
  return cache >= 0
    ? cache
    : refuse(
        `${stepLabel(step, i)} takes up the cache "${step.cache}", which was not left before`,
        `steps.${String(i)}.cache`,
      );
};

/** What must be aboard on arrival: the residual, and what the step asks for beyond it. */
export const arrivingAtCache = (
  lines: TakeStep["arriveWith"],
  residual: Float64Array,
  at: (propellantId: string, field: string) => number,
  field: string,
): Float64Array => {
  const arriving = residual.slice();
  for (const line of lines) {
    const p = at(line.propellantId, `${field}.arriveWith`);
    arriving[p] = (arriving[p] ?? 0) + line.massKg;
  }
  return arriving;
};
