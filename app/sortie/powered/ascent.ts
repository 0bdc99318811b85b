/**
 * Powered ascent to a circular orbit: straight up to clear the ground, a turn of the velocity away from the vertical, a
 * gravity turn at constant thrust that ends level and with its high point at the orbit, and an impulsive circularisation there.
 */
import { STANDARD_GRAVITY } from "../../ledger/quantity.ts";
import { circularSpeedMPerS, impulsiveLimitMPerS, LUNAR_GRAVITY, MOON_MU, MOON_RADIUS_M } from "../moon.ts";
import type { Flown, PoweredSample, Propulsion, Search } from "./flown.ts";
import { flyTurn, massShareAfter, type TurnState } from "./gravity-turn.ts";
import { bracketAround, rootInBracket } from "./root.ts";

export interface AscentPlan {
  /** Height of the circular orbit, m. */
  readonly orbitHeightM: number;
  /** Height to which it rises vertically, m, above 0. */
  readonly riseM: number;
}

const LEAST_TURN_RAD = 1e-4;
const MOST_TURN_RAD = Math.PI / 2 - 1e-4;
/** How level it must be at cut-off, m/s upwards. */
const TOLERANCE = 1e-4;

/** Height of the high point of the orbit through a state, m; infinite when it escapes. */
const apoluneM = (heightM: number, up: number, along: number): number => {
  const r = MOON_RADIUS_M + heightM;
  const energy = (up * up + along * along) / 2 - MOON_MU / r;
  if (energy >= 0) return Infinity;
  const momentum = r * along;
  const eccentricity = Math.sqrt(Math.max(0, 1 + (2 * energy * momentum * momentum) / (MOON_MU * MOON_MU)));
  return (-MOON_MU / (2 * energy)) * (1 + eccentricity) - MOON_RADIUS_M;
};

/** The ascent of a craft with this thrust over mass at lift-off; null: it does not lift off or does not reach orbit. */
export const flyAscent = (
  plan: AscentPlan,
  propulsion: Propulsion,
  search: Search = { guess: null, withSamples: true },
): Flown | null => {
  if (propulsion.acceleration <= MOON_MU / MOON_RADIUS_M ** 2) return null;
  const ispS = propulsion.ispAt(propulsion.throttle);
  const exhaust = ispS * STANDARD_GRAVITY;
  const samples: PoweredSample[] = [];
  const take = (state: TurnState): void => {
    samples.push({
      seconds: state.seconds,
      heightM: state.heightM,
      speedMPerS: Math.hypot(state.upMPerS, state.alongMPerS),
      upMPerS: state.upMPerS,
      alongMPerS: state.alongMPerS,
      rangeKm: (state.angleRad * MOON_RADIUS_M) / 1000,
      throttle: propulsion.throttle,
    });
  };
  const rise = flyTurn({
    acceleration: propulsion.acceleration,
    ispS,
    direction: 1,
    // The direction of thrust is that of the velocity, so it needs one; a micrometre a second does not matter.
    start: { seconds: 0, heightM: 0, upMPerS: 1e-6, alongMPerS: 0, angleRad: 0 },
    until: (height) => plan.riseM - height,
    ...(search.withSamples && { sample: { everySeconds: 2, take } }),
  });
  if (!rise) return null;
  const share = massShareAfter({ acceleration: propulsion.acceleration, ispS }, rise.seconds);

  const turn = (kickRad: number, sample: boolean): TurnState | null =>
    flyTurn({
      acceleration: propulsion.acceleration / share,
      ispS,
      direction: 1,
      start: {
        ...rise,
        upMPerS: rise.upMPerS * Math.cos(kickRad),
        alongMPerS: rise.upMPerS * Math.sin(kickRad),
      },
      // It may sink a little before it is fast enough to stay up: level flight faster than a circular orbit is only
      // reached from below. Where it falls back to the ground, the run ends there, sinking.
      until: (height, up, along) => Math.min(height, plan.orbitHeightM - apoluneM(height, up, along)),
      ...(sample && { sample: { everySeconds: 2, take } }),
    });
  /** Too steep: still climbing when the high point is reached (+). Too flat: sinking (−). */
  const miss = (kickRad: number): number => turn(kickRad, false)?.upMPerS ?? -MOON_RADIUS_M;
  const bracket = bracketAround(miss, LEAST_TURN_RAD, MOST_TURN_RAD, search.guess);
  if (bracket === null || bracket.valueAtLow < 0) return null;
  const kick = rootInBracket(miss, bracket, TOLERANCE);
  const end = turn(kick, search.withSamples);
  if (!end) return null;

  const powered = -exhaust * Math.log(massShareAfter({ acceleration: propulsion.acceleration, ispS }, end.seconds));
  const steeringLossMPerS = 2 * rise.upMPerS * Math.sin(kick / 2);
  const atApolune = ((MOON_RADIUS_M + end.heightM) * end.alongMPerS) / (MOON_RADIUS_M + plan.orbitHeightM);
  const orbitChangeMPerS = circularSpeedMPerS(plan.orbitHeightM) - atApolune;
  const deltaVMPerS = powered + steeringLossMPerS + orbitChangeMPerS;
  return {
    deltaVMPerS,
    ispS,
    orbitChangeMPerS,
    verticalMPerS: -exhaust * Math.log(share),
    gravityLossMPerS: powered - Math.hypot(end.upMPerS, end.alongMPerS),
    steeringLossMPerS,
    aboveLimitMPerS: deltaVMPerS - impulsiveLimitMPerS(plan.orbitHeightM),
    turnHeightM: end.heightM,
    root: kick,
    thrustToWeight: propulsion.acceleration / LUNAR_GRAVITY,
    seconds: end.seconds,
    verticalThrottle: null,
    samples,
  };
};
