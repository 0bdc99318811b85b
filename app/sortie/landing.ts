/** The landing site of a profile, and the low orbit from which it is reached. */
import type { GroundPlane } from "../orbits/site.ts";
import { nearestPassDeg, nodeOver } from "../orbits/site.ts";
import { nodeOverGroundDegPerDay } from "../orbits/orbit.ts";
import type { Profile, ProfileStep } from "../entity/profile.ts";
import { refuse } from "./refusal.ts";

export type Landing = NonNullable<Profile["landing"]>;

/** Its low orbit by its apses. */
export const lowOrbitOf = ({ orbitKm }: Pick<Landing, "orbitKm">) => ({ periapsisKm: orbitKm, apoapsisKm: orbitKm });

/** The orbit's plane over the ground at landing. */
export const planeAtLanding = (where: Landing): GroundPlane => ({
  inclinationDeg: where.inclinationDeg,
  nodeDeg:
    nodeOver(where, where.inclinationDeg, where.passes) +
    nodeOverGroundDegPerDay(lowOrbitOf(where), where.inclinationDeg) * where.landsAfterPassDays,
});

/** The burns between which the craft stands on the site, and how long. */
export interface SurfaceStay {
  readonly descentIndex: number;
  readonly ascentIndex: number;
  /** Steps that are stays there. */
  readonly stayIndexes: readonly number[];
  readonly days: number;
}

/** The last descent burn, the first ascent burn after it, and the stays between; null: there are no such burns. */
export const surfaceStayOf = (steps: readonly ProfileStep[]): SurfaceStay | null => {
  const phaseOf = (step: ProfileStep): string => (step.kind === "burn" ? step.phase : "");
  const ascentIndex = steps.findIndex(
    (step, i) => phaseOf(step) === "ascent" && steps.slice(0, i).some((before) => phaseOf(before) === "descent"),
  );
  if (ascentIndex < 0) return null;
  const descentIndex = steps.slice(0, ascentIndex).findLastIndex((step) => phaseOf(step) === "descent");
  const stayIndexes = steps.flatMap((step, i) =>
    step.kind === "stay" && i > descentIndex && i < ascentIndex ? [i] : [],
  );
  const days = stayIndexes.reduce((sum, i) => {
    const step = steps[i];
    return sum + (step?.kind === "stay" ? step.days : 0);
  }, 0);
  return { descentIndex, ascentIndex, stayIndexes, days };
};

/**
 * Refuses a site that the orbit never passes within the dog-leg, and a profile with a site that does not land there and
 * lift off again. Nothing to refuse without a site.
 */
export const checkLanding = (profile: {
  readonly steps: readonly ProfileStep[];
  readonly landing?: Landing | null;
}): void => {
  const where = profile.landing;
  if (!where) return;
  if (surfaceStayOf(profile.steps) === null)
    refuse(`the landing site ${where.site} is stated, but no step is an ascent after a descent`, "landing");
  const nearest = nearestPassDeg(where.latitudeDeg, where.inclinationDeg);
  if (nearest > where.dogLegLimitDeg)
    refuse(
      `the orbit of ${String(where.inclinationDeg)}° inclination never passes nearer than ${nearest.toFixed(1)}° to the landing site ${where.site} at latitude ${String(where.latitudeDeg)}°, and a dog-leg may be ${String(where.dogLegLimitDeg)}° at most; state another inclination, site or limit`,
      "landing.inclinationDeg",
    );
};
