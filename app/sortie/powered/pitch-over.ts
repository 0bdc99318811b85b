/**
 * How far an ascent turns away from the vertical. The flatter it turns, the less is lost to gravity and the lower it
 * flies: propellant falls all the way down to the ground, so that a least one only exists with a height to stay above.
 * Without one the turn is flown that ends level; with one, the flattest whose coast clears it.
 */
import { bracketAround, rootInBracket } from "./root.ts";

/** What a turn leads to, by its angle from the vertical in rad. Each call flies it. */
export interface TurnOutcome {
  /** Speed upwards when the high point of its orbit is high enough, m/s: falls with the angle. */
  readonly climbing: (kickRad: number) => number;
  /** Lowest height of the coast above what it must clear, m; null: nothing to clear. */
  readonly clearance: ((kickRad: number) => number) | null;
}

const LEAST_TURN_RAD = 1e-4;
const MAX_TURN_RAD = Math.PI / 2 - 1e-4;
/** How level it must be at cut-off, m/s upwards. */
const LEVEL_MPERS = 1e-4;
/** How near to the height that it must clear, m. */
const CLEAR_M = 0.01;
/** Golden section: the larger part of a stretch, and how often it is cut to find the turn with the highest coast. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const CUTS = 24;

const levelTurn = ({ climbing }: TurnOutcome, guess: number | null): number | null => {
  const bracket = bracketAround(climbing, LEAST_TURN_RAD, MAX_TURN_RAD, guess);
  return bracket === null || bracket.valueAtLow < 0 ? null : rootInBracket(climbing, bracket, LEVEL_MPERS);
};

/** Where a function with one high point between two angles is highest. */
const highest = (f: (kickRad: number) => number, low: number, high: number): number => {
  let [a, b] = [low, high];
  let [c, d] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  for (let cut = 0; cut < CUTS; cut++) {
    if (fc > fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLDEN * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLDEN * (b - a);
      fd = f(d);
    }
  }
  return fc > fd ? c : d;
};

/** The flattest turn that clears: the last angle at which the clearance falls through 0. */
const clearingTurn = (clearance: (kickRad: number) => number, level: number): number | null => {
  const between = (low: number, high: number): number | null => {
    const [valueAtLow, valueAtHigh] = [clearance(low), clearance(high)];
    return valueAtLow >= 0 && valueAtHigh <= 0
      ? rootInBracket(clearance, { low, high, valueAtLow, valueAtHigh }, CLEAR_M)
      : null;
  };
  if (clearance(level) >= 0) return between(level, MAX_TURN_RAD);
  return between(highest(clearance, LEAST_TURN_RAD, level), level);
};

/** The angle, rad; null: no turn leads to the orbit, or none clears what it must. `guess`: that of a flight much like it. */
export const pitchOver = (outcome: TurnOutcome, guess: number | null): number | null => {
  const { clearance } = outcome;
  if (clearance === null) return levelTurn(outcome, guess);
  if (guess !== null) {
    const near = bracketAround(clearance, LEAST_TURN_RAD, MAX_TURN_RAD, guess);
    // Only a bracket around the guess: over the whole range the clearance rises and falls.
    if (near !== null && near.valueAtLow >= 0 && near.high - near.low < 0.2)
      return rootInBracket(clearance, near, CLEAR_M);
  }
  const level = levelTurn(outcome, null);
  return level === null ? null : clearingTurn(clearance, level);
};
