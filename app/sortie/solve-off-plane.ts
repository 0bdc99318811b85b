/** A sortie solved with what its landing site takes off the orbit's plane. */
import { checkLanding, type Landing, surfaceStayOf } from "./landing.ts";
import type { Lander } from "../entity/lander.ts";
import { crossings, type OffPlane, phaseOf, stepsOffPlane } from "./off-plane.ts";
import type { Mission, Profile, ProfileStep } from "../entity/profile.ts";
import { type Solution, solve } from "./solve.ts";

/** What of a profile is flown. */
export type FlownProfile = Pick<Profile, "steps" | "reserve"> & { readonly landing?: Landing | null };

export interface SolvedOffPlane {
  /** As flown: with the extra Δv in the allowances of descent and ascent. */
  readonly steps: readonly ProfileStep[];
  readonly solution: Solution;
  readonly offPlane: OffPlane | null;
}

/** A change of the extra Δv below this ends the passes, m/s. */
const SETTLED_MPERS = 1e-4;
const MAX_PASSES = 20;

/**
 * Solves a profile; with a landing site, again until the dog-legs, whose cost hangs on the thrust over the mass then, and
 * the masses agree. Throws "refused" as {@link solve} does, and for a site that cannot be reached.
 */
export const solveOffPlane = (lander: Lander, profile: FlownProfile, mission: Mission): SolvedOffPlane => {
  const { landing: where, steps } = profile;
  const stay = where ? surfaceStayOf(steps) : null;
  checkLanding(profile);
  let solution = solve(lander, profile, mission);
  if (!where || !stay) return { steps, solution, offPlane: null };
  let off: OffPlane | null = null;
  for (let pass = 0; pass < MAX_PASSES; pass += 1) {
    const extra = { landing: off?.landing.mPerS ?? 0, liftOff: off?.liftOff.mPerS ?? 0 };
    const [descent, ascent] = [steps[stay.descentIndex], steps[stay.ascentIndex]];
    if (descent?.kind !== "burn" || ascent?.kind !== "burn") break;
    const next: OffPlane = crossings(
      where,
      phaseOf(lander, descent, stay.descentIndex, solution, extra.landing),
      phaseOf(lander, ascent, stay.ascentIndex, solution, extra.liftOff),
      stay.days,
    );
    const change = Math.abs(next.landing.mPerS - extra.landing) + Math.abs(next.liftOff.mPerS - extra.liftOff);
    if (off !== null && change < SETTLED_MPERS) break;
    off = next;
    solution = solve(lander, { reserve: profile.reserve, steps: [...stepsOffPlane(steps, stay, off)] }, mission);
  }
  return { steps: off === null ? steps : stepsOffPlane(steps, stay, off), solution, offPlane: off };
};
