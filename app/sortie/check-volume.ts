/** Does what must be aboard fit into the tanks that are aboard, and what is cached into the cache's? */
import type { Propellant } from "../entity/propellant.ts";
import type { ProfileStep } from "../entity/profile.ts";
import { refuse } from "./refusal.ts";
import type { Solution } from "./solve.ts";
import { stageField } from "./stage.ts";
import { cacheRow } from "./step-masses.ts";

export interface VolumeCheck {
  readonly kind: "tank volume" | "cache volume";
  readonly isMet: boolean;
  /** Before this step it is fullest; as many as there are steps: at the end. */
  readonly stepIndex: number;
  readonly propellantId: string;
  /** Whose tank; null: the lander's own stage, or a cache. */
  readonly stage: string | null;
  /** The cache's name; null for the lander's tanks. */
  readonly cache: string | null;
  readonly neededKg: number;
  readonly capacityKg: number;
}

/** Volume by propellant that is attached to the lander's own stage besides its tanks, before each step (drop tanks, cache tanks). */
const attachedVolumes = (steps: readonly ProfileStep[]): ReadonlyMap<string, number>[] => {
  const attached = new Map<string, number>();
  const add = (tanks: readonly { propellantId: string; volumeM3: number }[], sign: 1 | -1): void => {
    for (const tank of tanks)
      attached.set(tank.propellantId, (attached.get(tank.propellantId) ?? 0) + sign * tank.volumeM3);
  };
  for (const step of steps) if (step.kind === "jettison" || step.kind === "leave cache") add(step.tanks, 1);
  const states = [new Map(attached)];
  for (const step of steps) {
    if (step.kind === "jettison" || step.kind === "leave cache") add(step.tanks, -1);
    if (step.kind === "take up cache" && step.keepsTank) {
      const left = steps.find((other) => other.kind === "leave cache" && other.cache === step.cache);
      if (left?.kind === "leave cache") add(left.tanks, 1);
    }
    states.push(new Map(attached));
  }
  return states;
};

/** One check a propellant, at the step before which its tanks are fullest for their size; and one a cache and propellant. */
export const checkVolume = (
  steps: readonly ProfileStep[],
  solution: Solution,
  propellants: readonly Pick<Propellant, "id" | "densityKgPerM3">[],
): VolumeCheck[] => {
  const { compiled, masses } = solution;
  const attached = attachedVolumes(steps);
  return compiled.propellantIds.flatMap((propellantId, p): VolumeCheck[] => {
    const s = compiled.poolStages[p] ?? 0;
    const stage = compiled.stages[s];
    const index = stage?.tanks.findIndex((own) => own.propellantId === propellantId) ?? -1;
    const tank = stage?.tanks[index];
    if (!stage || !tank) return [];
    const density =
      propellants.find(({ id }) => id === propellantId)?.densityKgPerM3 ??
      refuse(`the density of ${propellantId} is not known`, `${stageField(s)}.tanks.${String(index)}.propellantId`);
    const kgPerM3 = density * (1 - tank.ullagePercent / 100);
    let worst: VolumeCheck | null = null;
    for (let state = 0; state <= steps.length; state++) {
      const capacityKg = (tank.volumeM3 + (s === 0 ? (attached[state]?.get(propellantId) ?? 0) : 0)) * kgPerM3;
      const neededKg = masses.stock[state * masses.n + p] ?? 0;
      if (worst && neededKg / capacityKg <= worst.neededKg / worst.capacityKg) continue;
      worst = {
        kind: "tank volume",
        isMet: neededKg <= capacityKg,
        stepIndex: state,
        propellantId,
        stage: stage.name,
        cache: null,
        neededKg,
        capacityKg,
      };
    }
    const caches = compiled.caches.flatMap((cache, q): VolumeCheck[] => {
      if (!cache.holds[p]) return [];
      const neededKg = masses.cached[cacheRow(compiled, q, cache.leftAt + 1) + p] ?? 0;
      const capacityKg = (cache.volumeM3[p] ?? 0) * kgPerM3;
      return [
        {
          kind: "cache volume",
          isMet: neededKg <= capacityKg,
          stepIndex: cache.leftAt,
          propellantId,
          stage: null,
          cache: cache.name,
          neededKg,
          capacityKg,
        },
      ];
    });
    return worst ? [worst, ...caches] : caches;
  });
};
