/**
 * Powered ascent to a circular orbit: straight up to clear the ground, a turn of the velocity away from the vertical, a
 * gravity turn at constant thrust until the high point of its orbit is the orbit's height, a coast, and an impulsive
 * circularisation there. How far it turns away is searched for in `pitch-over.ts`.
 */
import { STANDARD_GRAVITY } from "../../ground/quantity.ts";
import { circularSpeedMPerS, impulsiveLimitMPerS, LUNAR_GRAVITY, MOON_MU, MOON_RADIUS_M } from "../moon.ts";
import type { Flown, PoweredSample, Propulsion, Search } from "./flown.ts";
import { flyTurn, massShareAfter, type TurnState } from "./gravity-turn.ts";
import { pitchOver } from "./pitch-over.ts";

export interface AscentPlan {
  /** Height of the circular orbit, m. */
  readonly orbitHeightM: number;
  /** Height to which it rises vertically, m, above 0. */
  readonly riseM: number;
  /** The coast stays above this height, m, with the least propellant; left out: the turn ends level. */
  readonly coastAboveM?: number;
}

/** Heights of the low and the high point of the orbit through a state, m; the high one is infinite when it escapes. */
const apsides = (heightM: number, up: number, along: number): readonly [number, number] => {
  const r = MOON_RADIUS_M + heightM;
  const energy = (up * up + along * along) / 2 - MOON_MU / r;
  const momentum = r * along;
  const eccentricity = Math.sqrt(Math.max(0, 1 + (2 * energy * momentum * momentum) / (MOON_MU * MOON_MU)));
  const low = (momentum * momentum) / MOON_MU / (1 + eccentricity) - MOON_RADIUS_M;
  return [low, energy >= 0 ? Infinity : (-MOON_MU / (2 * energy)) * (1 + eccentricity) - MOON_RADIUS_M];
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
      until: (height, up, along) => Math.min(height, plan.orbitHeightM - apsides(height, up, along)[1]),
      ...(sample && { sample: { everySeconds: 2, take } }),
    });
  const { coastAboveM } = plan;
  const kick = pitchOver(
    {
      /** Too steep: still climbing when the high point is reached (+). Too flat: sinking (−). */
      climbing: (kickRad) => turn(kickRad, false)?.upMPerS ?? -MOON_RADIUS_M,
      clearance:
        coastAboveM === undefined
          ? null
          : (kickRad) => {
              const end = turn(kickRad, false);
              return end ? apsides(end.heightM, end.upMPerS, end.alongMPerS)[0] - coastAboveM : -MOON_RADIUS_M;
            },
    },
    search.guess,
  );
  if (kick === null) return null;
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
