/**
 * The two-burn transfer between two orbits: from an apsis of one, half an ellipse, to an apsis of the other. Where the
 * planes differ the turn is split between the burns. Impulsive: what a finite burn loses is for an allowance to state.
 */
import { planeChangeMPerS, turningBurnMPerS } from "./plane.ts";
import { periodS, speedAt } from "./speed.ts";

/** The apses of an orbit, radii from the centre, m. */
export interface Apses {
  readonly periapsisM: number;
  readonly apoapsisM: number;
}

/** How the turn is divided: by the least Δv, all in one burn, or so many degrees in the first. */
export type TurnSplit = "best" | "departure" | "capture" | { readonly departureDeg: number };

/** Two burns, each of which takes an ignition. */
export interface Transfer {
  /** At the radius where it leaves and where it arrives, m. */
  readonly fromRadiusM: number;
  readonly toRadiusM: number;
  readonly departureMPerS: number;
  readonly captureMPerS: number;
  readonly departureTurnDeg: number;
  readonly captureTurnDeg: number;
  readonly totalMPerS: number;
  /** Half the transfer ellipse, s. */
  readonly durationS: number;
  /** How many of the two burns are burns at all: equal orbits in one plane take none. */
  readonly ignitions: number;
}

/** Below this a burn is none, m/s. */
const NOTHING_MPERS = 1e-9;
const GRID = 48;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where a function of one argument is least in [0, end]: the best of a grid, then golden sections beside it. Good to
 * some 1e-7 of the interval, where the value itself no longer tells; the ends are candidates.
 */
const leastAt = (value: (x: number) => number, end: number): number => {
  let best = 0;
  for (let i = 1; i <= GRID; i += 1) if (value((end * i) / GRID) < value(best)) best = (end * i) / GRID;
  let [low, high] = [Math.max(0, best - end / GRID), Math.min(end, best + end / GRID)];
  for (let step = 0; step < 60; step += 1) {
    const [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (value(left) <= value(right)) high = right;
    else low = left;
  }
  const middle = (low + high) / 2;
  return [0, end, best, middle].reduce((a, b) => (value(b) < value(a) ? b : a));
};

/** The transfer between a given apsis of each orbit; `other…` are the opposite apses. */
const between = (
  mu: number,
  [fromM, otherFromM]: readonly [number, number],
  [toM, otherToM]: readonly [number, number],
  turnDeg: number,
  split: TurnSplit,
): Transfer => {
  const leaving = [speedAt(mu, fromM, fromM, otherFromM), speedAt(mu, fromM, fromM, toM)] as const;
  const arriving = [speedAt(mu, toM, fromM, toM), speedAt(mu, toM, toM, otherToM)] as const;
  const first = (deg: number): number => turningBurnMPerS(...leaving, deg);
  const second = (deg: number): number => turningBurnMPerS(...arriving, deg);
  const departureTurnDeg =
    split === "best"
      ? leastAt((deg) => first(deg) + second(turnDeg - deg), turnDeg)
      : split === "departure"
        ? turnDeg
        : split === "capture"
          ? 0
          : Math.min(turnDeg, Math.max(0, split.departureDeg));
  const captureTurnDeg = turnDeg - departureTurnDeg;
  const [departureMPerS, captureMPerS] = [first(departureTurnDeg), second(captureTurnDeg)];
  return {
    fromRadiusM: fromM,
    toRadiusM: toM,
    departureMPerS,
    captureMPerS,
    departureTurnDeg,
    captureTurnDeg,
    totalMPerS: departureMPerS + captureMPerS,
    durationS: periodS(mu, fromM, toM) / 2,
    ignitions: [departureMPerS, captureMPerS].filter((burn) => burn > NOTHING_MPERS).length,
  };
};

/**
 * The cheapest of the four two-burn transfers between the apses of two orbits whose lines of apsides may lie as the
 * transfer needs them (for a circular orbit they do anyway), with the planes `turnDeg` apart along the transfer's line.
 * Source: any text on orbital mechanics; checked against D. A. Vallado, "Fundamentals of Astrodynamics and
 * Applications", and H. D. Curtis, "Orbital Mechanics for Engineering Students".
 */
export const bestTransfer = (mu: number, from: Apses, to: Apses, turnDeg = 0, split: TurnSplit = "best"): Transfer => {
  const ways = [
    [from.periapsisM, from.apoapsisM],
    [from.apoapsisM, from.periapsisM],
  ] as const;
  const ends = [
    [to.apoapsisM, to.periapsisM],
    [to.periapsisM, to.apoapsisM],
  ] as const;
  const all = ways.flatMap((way) => ends.map((end) => between(mu, way, end, turnDeg, split)));
  return all.reduce((a, b) => (b.totalMPerS < a.totalMPerS ? b : a));
};

/** The plane turned alone, where the orbit is slowest: at its apoapsis, m/s. One ignition. */
export const planeChangeAloneMPerS = (mu: number, orbit: Apses, turnDeg: number): number =>
  planeChangeMPerS(speedAt(mu, orbit.apoapsisM, orbit.periapsisM, orbit.apoapsisM), turnDeg);
