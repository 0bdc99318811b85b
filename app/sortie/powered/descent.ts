/**
 * Powered descent from a circular orbit: an impulsive insertion into the ellipse whose low point is the ignition
 * height, the gravity turn from there, and (if asked for) a vertical phase of constant deceleration to touchdown.
 */
import { STANDARD_GRAVITY } from "../../ground/quantity.ts";
import {
  apsisChangeMPerS,
  ellipseSpeedMPerS,
  impulsiveLimitMPerS,
  LUNAR_GRAVITY,
  MOON_MU,
  MOON_RADIUS_M,
} from "../moon.ts";
import type { Flown, PoweredSample, Propulsion, Search } from "./flown.ts";
import { flyTurn, massShareAfter, type TurnState } from "./gravity-turn.ts";
import { bracketAround, rootInBracket } from "./root.ts";

export interface DescentPlan {
  /** Height of the circular orbit, m. */
  readonly orbitHeightM: number;
  /** Speed at the surface, m/s, above 0. */
  readonly touchdownMPerS: number;
  /** The gravity turn ends at this height and speed, and the rest is flown straight down; null: to the surface. */
  readonly vertical: { readonly fromHeightM: number; readonly fromSpeedMPerS: number } | null;
}

const SURFACE_GRAVITY = MOON_MU / (MOON_RADIUS_M * MOON_RADIUS_M);
const HEIGHT_TOLERANCE_M = 1e-3;

const speed = (state: TurnState): number => Math.hypot(state.upMPerS, state.alongMPerS);

/** Ignites at perilune at a height and brakes to the gate's speed. */
const brake = (
  plan: DescentPlan,
  propulsion: Propulsion,
  ignitionM: number,
  samples: PoweredSample[] | null,
): TurnState | null => {
  const gateSpeed = plan.vertical ? plan.vertical.fromSpeedMPerS : plan.touchdownMPerS;
  const take = (state: TurnState): void => {
    samples?.push({
      seconds: state.seconds,
      heightM: state.heightM,
      speedMPerS: speed(state),
      upMPerS: state.upMPerS,
      alongMPerS: state.alongMPerS,
      rangeKm: (state.angleRad * MOON_RADIUS_M) / 1000,
      throttle: propulsion.throttle,
    });
  };
  return flyTurn({
    acceleration: propulsion.acceleration,
    ispS: propulsion.ispAt(propulsion.throttle),
    direction: -1,
    start: {
      seconds: 0,
      heightM: ignitionM,
      upMPerS: 0,
      alongMPerS: ellipseSpeedMPerS(ignitionM, ignitionM, plan.orbitHeightM),
      angleRad: 0,
    },
    until: (_height, up, along) => Math.hypot(up, along) - gateSpeed,
    ...(samples && { sample: { everySeconds: 2, take } }),
  });
};

interface VerticalPhase {
  readonly deltaV: number;
  readonly isp: number;
  readonly seconds: number;
  readonly throttle: readonly [number, number];
}

/** The last stretch at constant deceleration; thrust follows the falling mass. `fullOverMass` is at its start. */
const flyVertical = (
  downMPerS: number,
  plan: DescentPlan,
  fullOverMass: number,
  propulsion: Propulsion,
): VerticalPhase => {
  const height = plan.vertical?.fromHeightM ?? 0;
  const deceleration = (downMPerS ** 2 - plan.touchdownMPerS ** 2) / (2 * height);
  const seconds = (2 * height) / (downMPerS + plan.touchdownMPerS);
  const needed = SURFACE_GRAVITY + deceleration;
  const deltaV = needed * seconds;
  const first = needed / fullOverMass;
  const isp = propulsion.ispAt(Math.min(1, first));
  return { deltaV, isp, seconds, throttle: [first, first * Math.exp(-deltaV / (isp * STANDARD_GRAVITY))] };
};

/**
 * The descent of a craft with this thrust over mass at ignition; null: no ignition height between surface and orbit
 * lets it stop at the gate (too little thrust, or too little propellant). The ignition height is found so that the gate
 * is met within a millimetre.
 */
export const flyDescent = (
  plan: DescentPlan,
  propulsion: Propulsion,
  search: Search = { guess: null, withSamples: true },
): Flown | null => {
  const gate = plan.vertical ? plan.vertical.fromHeightM : 0;
  const miss = (ignitionM: number): number =>
    (brake(plan, propulsion, ignitionM, null)?.heightM ?? -MOON_RADIUS_M) - gate;
  const bracket = bracketAround(miss, gate, plan.orbitHeightM, search.guess);
  // Too high an ignition stops above the gate (+); a sign the other way round is no descent.
  if (bracket === null || bracket.valueAtLow > 0) return null;
  const turnHeightM = rootInBracket(miss, bracket, HEIGHT_TOLERANCE_M);
  const samples: PoweredSample[] = [];
  const end = brake(plan, propulsion, turnHeightM, search.withSamples ? samples : null);
  if (!end) return null;

  const turnIsp = propulsion.ispAt(propulsion.throttle);
  const share = massShareAfter({ acceleration: propulsion.acceleration, ispS: turnIsp }, end.seconds);
  const turn = -turnIsp * STANDARD_GRAVITY * Math.log(share);
  const fullOverMass = propulsion.acceleration / propulsion.throttle / share;
  const down = -end.upMPerS;
  const vertical = plan.vertical ? flyVertical(down, plan, fullOverMass, propulsion) : null;
  const steeringLossMPerS = plan.vertical ? end.alongMPerS : 0;
  if (vertical && plan.vertical) {
    const { heightM, angleRad, seconds } = end;
    for (const part of [0, 0.25, 0.5, 0.75, 1]) {
      const t = part * vertical.seconds;
      const rate = (down - plan.touchdownMPerS) / vertical.seconds;
      const now = down - rate * t;
      samples.push({
        seconds: seconds + t,
        heightM: Math.max(0, heightM - (down * t - (rate * t * t) / 2)),
        speedMPerS: now,
        upMPerS: -now,
        alongMPerS: 0,
        rangeKm: (angleRad * MOON_RADIUS_M) / 1000,
        throttle: vertical.throttle[0] + (vertical.throttle[1] - vertical.throttle[0]) * part,
      });
    }
  }
  const orbitChangeMPerS = apsisChangeMPerS(plan.orbitHeightM, turnHeightM);
  const atTurnIsp = orbitChangeMPerS + turn + steeringLossMPerS;
  const deltaVMPerS = atTurnIsp + (vertical?.deltaV ?? 0);
  const startSpeed = ellipseSpeedMPerS(turnHeightM, turnHeightM, plan.orbitHeightM);
  return {
    deltaVMPerS,
    ispS: deltaVMPerS / (atTurnIsp / turnIsp + (vertical ? vertical.deltaV / vertical.isp : 0)),
    orbitChangeMPerS,
    verticalMPerS: vertical?.deltaV ?? 0,
    gravityLossMPerS: turn - (startSpeed - speed(end)) + (vertical ? SURFACE_GRAVITY * vertical.seconds : 0),
    steeringLossMPerS,
    aboveLimitMPerS: deltaVMPerS - impulsiveLimitMPerS(plan.orbitHeightM),
    turnHeightM,
    root: turnHeightM,
    thrustToWeight: propulsion.acceleration / LUNAR_GRAVITY,
    seconds: end.seconds + (vertical?.seconds ?? 0),
    verticalThrottle: vertical?.throttle ?? null,
    samples,
  };
};
