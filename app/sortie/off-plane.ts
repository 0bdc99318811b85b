/**
 * What a landing site off the orbit's plane adds to a sortie: at landing and at lift-off, after the stay during which the
 * Moon turns below the orbit. The extra Δv is put on the allowance of the descent and of the ascent burn, so the margin
 * holds for it too; a plane change in orbit is one more ignition of each lit engine.
 */
import { STANDARD_GRAVITY } from "../ground/quantity.ts";
import { type OffPlaneCost, offPlaneCost, type PoweredPhase } from "../orbits/dog-leg.ts";
import { offPlaneDeg, planeAfter } from "../orbits/site.ts";
import { enginesLit } from "./engine-use.ts";
import type { Lander } from "../entity/lander.ts";
import { type Landing, lowOrbitOf, planeAtLanding, type SurfaceStay } from "./landing.ts";
import type { BurnStep, ProfileStep } from "../entity/profile.ts";
import type { Solution } from "./solve.ts";
import { massAt } from "./step-masses.ts";
import { burnIsp } from "./compile.ts";
import { enginesOf } from "./stage.ts";

/** The two crossings of the plane that a landing takes. */
export interface OffPlane {
  readonly stayDays: number;
  readonly landing: OffPlaneCost;
  readonly liftOff: OffPlaneCost;
}

/** How far the site lies off the plane so many days after landing, degrees without sign. */
export const offAfter = (where: Landing, days: number): number =>
  Math.abs(offPlaneDeg(where, planeAfter(planeAtLanding(where), lowOrbitOf(where), days)));

/** A burn of a solved sortie as a powered phase, without margin and without what its plane took. */
export const phaseOf = (
  lander: Lander,
  step: BurnStep,
  i: number,
  solution: Solution,
  extraMPerS: number,
): PoweredPhase => {
  const { compiled, masses, flown } = solution;
  const engines = enginesOf(lander, step, i);
  const ispS = flown[i]?.ispS ?? burnIsp(engines, step.throttle);
  const withMargin = (compiled.exponents[i] ?? 0) * ispS * STANDARD_GRAVITY;
  const thrustN = engines.thrustN * enginesLit(engines, step) * step.throttle;
  return {
    accelerationMPerS2: thrustN / massAt(compiled, masses, i),
    ispS,
    deltaVMPerS: withMargin / (1 + step.marginPercent / 100) - extraMPerS,
  };
};

/** The crossings of a stay of `days`, from the powered phases of its burns. */
export const crossings = (where: Landing, descent: PoweredPhase, ascent: PoweredPhase, days: number): OffPlane => ({
  stayDays: days,
  landing: offPlaneCost(descent, where.orbitKm * 1000, offAfter(where, 0), where.dogLegLimitDeg),
  liftOff: offPlaneCost(ascent, where.orbitKm * 1000, offAfter(where, days), where.dogLegLimitDeg),
});

const withExtra = (step: ProfileStep | undefined, cost: OffPlaneCost): ProfileStep[] => {
  if (step?.kind !== "burn") return step ? [step] : [];
  const deltaV = { ...step.deltaV, allowanceMPerS: step.deltaV.allowanceMPerS + cost.mPerS };
  return [{ ...step, deltaV, ignitions: step.ignitions + (cost.takes === "plane change" ? 1 : 0) }];
};

/** The steps with the extra Δv in their descent and ascent. */
export const stepsOffPlane = (
  steps: readonly ProfileStep[],
  stay: SurfaceStay,
  off: OffPlane,
): readonly ProfileStep[] =>
  steps.flatMap((step, i) => {
    if (i === stay.descentIndex) return withExtra(step, off.landing);
    if (i === stay.ascentIndex) return withExtra(step, off.liftOff);
    return [step];
  });
