/** A tank simulated apart from the product: levels by the ODE integrator, readings with seeded Gaussian noise. */
import { Solver } from "odex";
import type { Reading } from "../../../../app/ledger/journal.ts";
import type { Transfer } from "../../../../app/losses/fit/observations.ts";

export const DAY = 86_400_000;
export const START_AT = Date.UTC(2031, 0, 1);

/** sfc32, seeded; uniform in (0, 1). */
export const seeded = (seed: number): (() => number) => {
  let [a, b, c, d] = [0x9e3779b9, 0x243f6a88, 0xb7e15162, seed | 0];
  const next = (): number => {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    return ((t >>> 0) + 0.5) / 4_294_967_296;
  };
  for (let i = 0; i < 20; i++) next();
  return next;
};

export const gaussian = (uniform: () => number): number =>
  Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());

export interface SimulatedTank {
  readonly m0Kg: number;
  readonly kPerDay: number;
  readonly cKgPerDay: number;
  /** Days and kg. */
  readonly transfers: readonly (readonly [number, number])[];
}

/** True levels at rising days, kg: integrated between transfers to 1e-12. */
export const trueLevels = (tank: SimulatedTank, timeDays: readonly number[]): readonly number[] => {
  const solver = new Solver(1);
  solver.absoluteTolerance = 1e-9;
  solver.relativeTolerance = 1e-13;
  const derivative = (_: number, y: readonly number[]): number[] => [-(tank.kPerDay * y[0]! + tank.cKgPerDay)];
  let level = tank.m0Kg;
  let at = 0;
  const moves = [...tank.transfers];
  const step = (to: number): void => {
    if (to > at) level = solver.solve(derivative, at, [level], to).y[0]!;
    at = to;
  };
  return timeDays.map((time) => {
    while (moves[0] !== undefined && moves[0][0] < time) {
      const [day, kg] = moves.shift()!;
      step(day);
      level += kg;
    }
    step(time);
    return level;
  });
};

export const asTransfers = (tank: SimulatedTank): readonly Transfer[] =>
  tank.transfers.map(([day, massKg]) => ({ at: START_AT + day * DAY, massKg }));

export const readingAt = (place: number, day: number, massKg: number, sigmaKg: number): Reading => ({
  id: `r${place}`,
  tankId: "tank",
  at: Math.round(START_AT + day * DAY),
  massKg,
  sigmaKg,
  entryId: null,
  isWithdrawn: false,
  note: "",
});
