/** The rocket equation, and what an engine burns. */
import { STANDARD_GRAVITY } from "../ground/quantity.ts";

/** Mass before a burn over mass after it: e^(Δv/(Isp·g0)). Δv in m/s, Isp in s (above 0). */
export const massRatio = (deltaVMPerS: number, ispS: number): number =>
  Math.exp(deltaVMPerS / (ispS * STANDARD_GRAVITY));

/** Δv of a burn, m/s, from the masses before and after it. */
export const deltaVMPerS = (ispS: number, beforeKg: number, afterKg: number): number =>
  ispS * STANDARD_GRAVITY * Math.log(beforeKg / afterKg);

/** The propellant of a burn by the mass that is left after it, kg. */
export const burnedKg = (afterKg: number, deltaV: number, ispS: number): number =>
  afterKg * Math.expm1(deltaV / (ispS * STANDARD_GRAVITY));

/** How long `thrustN` must act to burn a mass, s. */
export const burnSeconds = (massKg: number, ispS: number, thrustN: number): number =>
  (massKg * ispS * STANDARD_GRAVITY) / thrustN;

/** The oxidiser's and the fuel's share of what an engine burns, from its mixture ratio O/F by mass (above 0). */
export const oxidiserShare = (mixtureRatio: number): number => mixtureRatio / (1 + mixtureRatio);
export const fuelShare = (mixtureRatio: number): number => 1 / (1 + mixtureRatio);

/** Throttle at which `thrustN` (of the lit engines, at full) carries a mass at rest against gravity; above 1: it cannot. */
export const hoverThrottle = (massKg: number, gravity: number, thrustN: number): number => (massKg * gravity) / thrustN;

/**
 * Isp at a throttle setting, s: linear between the minimum throttle and full thrust. A real engine's curve bends; the
 * two ends are what a data sheet gives.
 */
export const ispAtThrottle = (
  throttle: number,
  minimumThrottle: number,
  ispFullS: number,
  ispMinimumS: number,
): number =>
  minimumThrottle >= 1
    ? ispFullS
    : ispMinimumS + ((ispFullS - ispMinimumS) * (throttle - minimumThrottle)) / (1 - minimumThrottle);
