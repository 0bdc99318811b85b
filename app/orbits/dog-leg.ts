/**
 * What it takes to reach or to leave a place off the orbit's plane: a dog-leg, that is steering sideways while the engines
 * burn, or turning the plane in low orbit, a quarter of a revolution from the place.
 */
import { STANDARD_GRAVITY } from "../ground/quantity.ts";
import { MOON_MU, MOON_RADIUS_M } from "./moon.ts";
import { planeChangeMPerS } from "./plane.ts";
import { circularSpeedAt } from "./speed.ts";

/** A powered descent or ascent as a whole: thrust over mass as it begins, m/s²; Isp, s; its Δv without any dog-leg, m/s. */
export interface PoweredPhase {
  readonly accelerationMPerS2: number;
  readonly ispS: number;
  readonly deltaVMPerS: number;
}

export interface DogLeg {
  /** More than the phase takes in the plane, m/s. */
  readonly extraMPerS: number;
  /** The most of it, sideways acceleration over the thrust's acceleration then. */
  readonly sidewaysShare: number;
  readonly burnS: number;
}

/** Sideways beyond this share of the thrust the steering in the plane is no longer what it was: no answer is given. */
export const MAX_SIDEWAYS_SHARE = 0.5;

const PANELS = 64;

/**
 * A dog-leg over an arc, in the time of the powered phase: sideways acceleration falls linearly through zero, which ends
 * without sideways speed at the displacement and takes the least effort at constant thrust (linear tangent steering;
 * common practice). It stands at right angles to the thrust in the plane, so the phase takes √(a² + s²) where it took a.
 * The bending of the tracks within the phase and the turning of the Moon within it are left out: fit for a few degrees.
 */
export const dogLeg = (phase: PoweredPhase, offDeg: number): DogLeg => {
  const exhaust = phase.ispS * STANDARD_GRAVITY;
  const burnS = (exhaust / phase.accelerationMPerS2) * -Math.expm1(-phase.deltaVMPerS / exhaust);
  const displacementM = MOON_RADIUS_M * Math.abs(offDeg) * (Math.PI / 180);
  const sideways = (6 * displacementM) / burnS ** 2;
  let sum = 0;
  let share = 0;
  for (let i = 0; i <= PANELS; i += 1) {
    const part = i / PANELS;
    const thrust = phase.accelerationMPerS2 / (1 - (phase.accelerationMPerS2 * burnS * part) / exhaust);
    const across = sideways * (1 - 2 * part);
    // √(a² + s²) − a, without losing the digits of a small s.
    const extra = across ** 2 / (Math.hypot(thrust, across) + thrust);
    sum += extra * (i === 0 || i === PANELS ? 1 : i % 2 === 1 ? 4 : 2);
    share = Math.max(share, Math.abs(across) / thrust);
  }
  return { extraMPerS: (sum * burnS) / (3 * PANELS), sidewaysShare: share, burnS };
};

/** Turning the plane by the arc in a circular orbit, m/s. */
export const lowOrbitTurnMPerS = (heightM: number, offDeg: number): number =>
  planeChangeMPerS(circularSpeedAt(MOON_MU, MOON_RADIUS_M + heightM), Math.abs(offDeg));

/** The two ways off the plane side by side, and which is taken: the cheaper of those that can be flown. */
export interface OffPlaneCost {
  readonly offDeg: number;
  /** null: beyond what the dog-leg may be or can be. */
  readonly dogLegMPerS: number | null;
  readonly planeChangeMPerS: number;
  readonly takes: "nothing" | "dog-leg" | "plane change";
  readonly mPerS: number;
}

/** Below this a site counts as in the plane, degrees: some thirty metres. */
const IN_PLANE_DEG = 1e-3;

/** What a place so far off the plane takes; a dog-leg up to `limitDeg` only. */
export const offPlaneCost = (phase: PoweredPhase, heightM: number, offDeg: number, limitDeg: number): OffPlaneCost => {
  const arc = Math.abs(offDeg);
  const turn = lowOrbitTurnMPerS(heightM, arc);
  if (arc < IN_PLANE_DEG) return { offDeg: arc, dogLegMPerS: 0, planeChangeMPerS: turn, takes: "nothing", mPerS: 0 };
  const { extraMPerS, sidewaysShare } = dogLeg(phase, arc);
  const dog = arc <= limitDeg && sidewaysShare <= MAX_SIDEWAYS_SHARE ? extraMPerS : null;
  const isDogLeg = dog !== null && dog <= turn;
  return {
    offDeg: arc,
    dogLegMPerS: dog,
    planeChangeMPerS: turn,
    takes: isDogLeg ? "dog-leg" : "plane change",
    mPerS: isDogLeg ? dog : turn,
  };
};
