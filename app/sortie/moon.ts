/** The Moon as the sortie sees it: a point mass with a surface, and its surface gravity. */

import { MOON_MU, MOON_RADIUS_M } from "../orbits/moon.ts";

export { MOON_MU, MOON_RADIUS_M };

/** Surface gravity against which thrust is measured, m/s² (NSSDCA Moon fact sheet). */
export const LUNAR_GRAVITY = 1.62;

/** Speed in a circular orbit at a height above the surface, m/s. */
export const circularSpeedMPerS = (heightM: number): number => Math.sqrt(MOON_MU / (MOON_RADIUS_M + heightM));

/** Speed at height `atM` on the ellipse whose lowest and highest heights are given, m/s (vis-viva). */
export const ellipseSpeedMPerS = (atM: number, oneApsisM: number, otherApsisM: number): number => {
  const r = MOON_RADIUS_M + atM;
  const axis = MOON_RADIUS_M + (oneApsisM + otherApsisM) / 2;
  return Math.sqrt(MOON_MU * (2 / r - 1 / axis));
};

/** Δv of the manoeuvre between a circular orbit and the ellipse that touches another height, m/s. */
export const apsisChangeMPerS = (circularHeightM: number, otherHeightM: number): number =>
  Math.abs(circularSpeedMPerS(circularHeightM) - ellipseSpeedMPerS(circularHeightM, circularHeightM, otherHeightM));

/**
 * The least Δv between a circular orbit and rest on the surface, m/s: an impulsive transfer to surface height and an
 * impulsive stop there (or the same the other way). A powered descent or ascent tends to it as thrust grows.
 */
export const impulsiveLimitMPerS = (circularHeightM: number): number =>
  apsisChangeMPerS(circularHeightM, 0) + ellipseSpeedMPerS(0, circularHeightM, 0);
