/** Changes of a list of steps: add, move, remove, replace. A cache is added and removed whole, both its ends. */
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { ProfileStep } from "../../../app/entity/profile.ts";

export interface StepList {
  readonly steps: readonly ProfileStep[];
  /** The step that is shown then. */
  readonly at: number;
}

const named = (steps: readonly ProfileStep[]): string => {
  const taken = new Set(steps.flatMap((step) => (step.kind === "leave cache" ? [step.cache] : [])));
  for (let n = 1; ; n++) {
    const name = n === 1 ? "low orbit" : `low orbit ${String(n)}`;
    if (!taken.has(name)) return name;
  }
};

/** New steps of a kind, with what is usual. Two for a cache: leave it here, take it up at the end. */
const fresh = (kind: ProfileStep["kind"], lander: Lander, cache: string): ProfileStep => {
  const oxidiser = lander.engines.oxidiserId;
  switch (kind) {
    case "burn":
      return {
        kind,
        name: "burn",
        phase: "transfer",
        deltaV: { kind: "stated", mPerS: 100, allowanceMPerS: 0, basis: "assumed" },
        marginPercent: 0,
        enginesLit: null,
        ignitions: 1,
        throttle: 1,
      };
    case "thruster burn":
      return {
        kind,
        name: "trim",
        system: lander.thrusters[0]?.name ?? "thrusters",
        amount: { kind: "delta-v", mPerS: 10 },
        marginPercent: 0,
      };
    case "stay":
      return { kind, name: "coast", days: 1, powerKw: 3, crew: null, losses: [] };
    case "load change":
      return { kind, name: "unload", cargoKg: 0, sortieCargo: "put off", persons: 0 };
    case "jettison":
      return { kind, name: "jettison", massKg: 100, tanks: [] };
    case "drop stage": {
      const [stage] = lander.furtherStages ?? [];
      return { kind, name: "part", ...(stage && { stage: stage.name }), fate: "dropped" };
    }
    case "leave cache":
      return {
        kind,
        name: "leave the cache",
        cache,
        tankKg: 300,
        tanks: [...new Set([oxidiser, lander.engines.fuelId])].map((propellantId) => ({
          propellantId,
          volumeM3: propellantId === oxidiser ? 6 : 17,
          kPerDay: 0,
          cKgPerDay: 0,
        })),
      };
    case "take up cache":
      return { kind, name: "take up the cache", cache, keepsTank: true, arriveWith: [] };
    default:
      return missingCase(kind);
  }
};

/** The step with another stage; undefined: the lander's own, which is said by naming none. */
export const withStage = <S extends { readonly stage?: string | undefined }>(step: S, stage: string | undefined): S => {
  const { stage: _dropped, ...others } = step;
  return (stage === undefined ? others : { ...others, stage }) as S;
};

/** Puts a new step after the one at `at`. */
export const addStep = (
  steps: readonly ProfileStep[],
  at: number,
  kind: ProfileStep["kind"],
  lander: Lander,
): StepList => {
  const index = Math.min(steps.length, at + 1);
  const cache = named(steps);
  const added = fresh(kind, lander, cache);
  const after = steps.slice(index);
  const end = kind === "leave cache" ? [fresh("take up cache", lander, cache)] : [];
  return { steps: [...steps.slice(0, index), added, ...after, ...end], at: index };
};

/** Removes a step; a cache with its other end. */
export const removeStep = (steps: readonly ProfileStep[], at: number): StepList => {
  const gone = steps[at];
  const cache = gone?.kind === "leave cache" || gone?.kind === "take up cache" ? gone.cache : null;
  const kept = steps.filter(
    (step, i) =>
      i !== at &&
      !(cache !== null && (step.kind === "leave cache" || step.kind === "take up cache") && step.cache === cache),
  );
  return { steps: kept, at: Math.max(0, Math.min(at, kept.length - 1)) };
};

/** Moves a step to another place in the list. */
export const moveStep = (steps: readonly ProfileStep[], from: number, to: number): StepList => {
  const index = Math.max(0, Math.min(steps.length - 1, to));
  const moved = steps[from];
  if (moved === undefined || index === from) return { steps, at: from };
  const others = steps.filter((_, i) => i !== from);
  return { steps: [...others.slice(0, index), moved, ...others.slice(index)], at: index };
};

/** Changes one step. Renaming a cache renames it at its other end. */
export const replaceStep = (steps: readonly ProfileStep[], at: number, next: ProfileStep): StepList => {
  const before = steps[at];
  const old = before?.kind === "leave cache" || before?.kind === "take up cache" ? before.cache : null;
  const name = next.kind === "leave cache" || next.kind === "take up cache" ? next.cache : null;
  return {
    steps: steps.map((step, i) => {
      if (i === at) return next;
      const isOtherEnd = (step.kind === "leave cache" || step.kind === "take up cache") && step.cache === old;
      return isOtherEnd && name !== null ? { ...step, cache: name } : step;
    }),
    at,
  };
};
