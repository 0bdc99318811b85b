/**
 * The planar point-mass gravity turn under constant thrust: thrust along (ascent) or against (descent) the velocity,
 * inverse-square gravity, no air, no rotation. Integrated by an adaptive extrapolation method (Gragg–Bulirsch–Stoer).
 */
import { Solver } from "odex";
import { STANDARD_GRAVITY } from "../../ground/quantity.ts";
import { MOON_MU, MOON_RADIUS_M } from "../moon.ts";

/** Height above the surface, speeds up and along the horizon, angle travelled over ground (rad), time since ignition. */
export interface TurnState {
  readonly seconds: number;
  readonly heightM: number;
  readonly upMPerS: number;
  readonly alongMPerS: number;
  readonly angleRad: number;
}

export interface Turn {
  /** Thrust over mass at ignition, m/s². */
  readonly acceleration: number;
  readonly ispS: number;
  /** +1: thrust along the velocity; −1: against it. */
  readonly direction: 1 | -1;
  readonly start: TurnState;
  /** Ends where this function of the state first falls to 0 (it must start above 0). */
  readonly until: (heightM: number, upMPerS: number, alongMPerS: number) => number;
  /** Called about every `everySeconds` with the state, for plotting. */
  readonly sample?: { readonly everySeconds: number; readonly take: (state: TurnState) => void };
}

/** Longest burn considered: until this share of the ignition mass is left. */
const LEAST_MASS_SHARE = 0.02;
const TOLERANCE = 1e-8;
const HEIGHT = 0;
const UP = 1;
const ALONG = 2;
const ANGLE = 3;

const crossing = (g: (t: number) => number, before: number, after: number): number => {
  // Dense output is a polynomial: bisection to the last bits costs microseconds and cannot leave the step.
  let low = before;
  let high = after;
  for (let i = 0; i < 60 && high - low > 1e-12 * (1 + Math.abs(high)); i++) {
    const middle = (low + high) / 2;
    if (g(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** Mass left over ignition mass after so many seconds of burn. */
export const massShareAfter = (turn: Pick<Turn, "acceleration" | "ispS">, seconds: number): number =>
  1 - (turn.acceleration * seconds) / (turn.ispS * STANDARD_GRAVITY);

/** Flies the turn to its end; null: the end is not reached before the propellant is gone. */
export const flyTurn = (turn: Turn): TurnState | null => {
  const { acceleration, direction, start, until, sample } = turn;
  const exhaust = turn.ispS * STANDARD_GRAVITY;
  const longest = ((1 - LEAST_MASS_SHARE) * exhaust) / acceleration;
  const solver = new Solver(4);
  solver.denseOutput = true;
  solver.relativeTolerance = TOLERANCE;
  solver.absoluteTolerance = [1e-4, 1e-6, 1e-6, 1e-11];
  solver.initialStepSize = 1;
  let end: TurnState | null = null;
  let nextSample = 0;
  const derivative = (t: number, y: readonly number[]): number[] => {
    const up = y[UP] ?? 0;
    const along = y[ALONG] ?? 0;
    const r = MOON_RADIUS_M + (y[HEIGHT] ?? 0);
    const thrust = (direction * acceleration) / (1 - (acceleration * t) / exhaust);
    const perSpeed = thrust / Math.sqrt(up * up + along * along);
    return [
      up,
      (along * along) / r - MOON_MU / (r * r) + perSpeed * up,
      (-up * along) / r + perSpeed * along,
      along / r,
    ];
  };
  solver.solve(
    derivative,
    0,
    [start.heightM, start.upMPerS, start.alongMPerS, start.angleRad],
    longest,
    (step, before, after, y, dense) => {
      if (step === 1) return true;
      const isOver = !(until(y[HEIGHT] ?? 0, y[UP] ?? 0, y[ALONG] ?? 0) > 0);
      const last = isOver
        ? crossing((t) => until(dense(HEIGHT, t), dense(UP, t), dense(ALONG, t)), before, after)
        : after;
      const stateAt = (t: number): TurnState => ({
        seconds: start.seconds + t,
        heightM: dense(HEIGHT, t),
        upMPerS: dense(UP, t),
        alongMPerS: dense(ALONG, t),
        angleRad: dense(ANGLE, t),
      });
      if (sample) {
        for (; nextSample < last; nextSample += sample.everySeconds) sample.take(stateAt(nextSample));
      }
      if (!isOver) return true;
      end = stateAt(last);
      sample?.take(end);
      return false;
    },
  );
  return end;
};
