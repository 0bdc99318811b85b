/** The level at the readings by the closed form between transfers, with its derivatives by the level at the start, k and c. */
import { phi1, phi2 } from "../../storage/level.ts";
import type { Stretch } from "./observations.ts";

export interface ModelParameters {
  readonly m0Kg: number;
  readonly kPerDay: number;
  readonly cKgPerDay: number;
}

/** At each instant asked for: the level, and how it moves with each parameter. */
export interface ModelRun {
  readonly levels: Float64Array;
  readonly byM0: Float64Array;
  readonly byK: Float64Array;
  readonly byC: Float64Array;
}

/** φ1 and φ2 for either sign: on its way a fit may try a k below 0, which the forecast's forms do not take far from 0. */
const eitherPhi1 = (x: number): number => (x < -0.125 ? -Math.expm1(-x) / x : phi1(x));
const eitherPhi2 = (x: number): number => (x < -0.125 ? (1 - eitherPhi1(x)) / x : phi2(x));

/**
 * Runs from the first reading on, without the stop at 0. Over a step of t days: m ← m·e^(−kt) − c·t·φ1(kt); by k:
 * ∂m ← (∂m − m·t)·e^(−kt) − c·t²·(φ2 − φ1)(kt), since φ1′ = φ2 − φ1. `timeDays` rises.
 */
export const runModel = (
  parameters: ModelParameters,
  timeDays: readonly number[],
  transfers: Stretch["transfers"],
): ModelRun => {
  const { kPerDay: k, cKgPerDay: c } = parameters;
  const n = timeDays.length;
  const run: ModelRun = {
    levels: new Float64Array(n),
    byM0: new Float64Array(n),
    byK: new Float64Array(n),
    byC: new Float64Array(n),
  };
  let level = parameters.m0Kg;
  let byM0 = 1;
  let byK = 0;
  let byC = 0;
  let at = 0;
  let next = 0;
  const step = (to: number): void => {
    const t = to - at;
    if (t === 0) return;
    const x = k * t;
    const decay = Math.exp(-x);
    const first = eitherPhi1(x);
    byK = (byK - level * t) * decay - c * t * t * (eitherPhi2(x) - first);
    byC = byC * decay - t * first;
    byM0 *= decay;
    // The form of the forecast: it keeps its digits as k goes to 0.
    level -= (k * level + c) * t * first;
    at = to;
  };
  for (let i = 0; i < n; i++) {
    const time = timeDays[i] as number;
    for (let move = transfers[next]; move !== undefined; move = transfers[next]) {
      if (move.timeDays > time || (move.timeDays === time && move.massKg <= 0)) break;
      step(move.timeDays);
      level += move.massKg;
      next += 1;
    }
    step(time);
    run.levels[i] = level;
    run.byM0[i] = byM0;
    run.byK[i] = byK;
    run.byC[i] = byC;
  }
  return run;
};
