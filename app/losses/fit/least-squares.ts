/** Weighted least squares of the level model on the readings: Gauss–Newton, each step solved by the QR of the weighted derivatives. */
import { PlanningError } from "../../ground/failure.ts";
import { type ModelRun, runModel } from "./level-model.ts";
import type { FitRequest, Observations } from "./observations.ts";
import { type WeightedBasis, weightedBasis } from "./weighted-basis.ts";

export interface FittedParameters {
  /** Level at the first reading of each stretch. */
  readonly startsKg: readonly number[];
  readonly kPerDay: number;
  readonly cKgPerDay: number;
}

export interface Solution {
  readonly parameters: FittedParameters;
  /** One a stretch. */
  readonly runs: readonly ModelRun[];
  /** At the solution; columns in the order of {@link columnsOf}. */
  readonly basis: WeightedBasis;
}

/** A step smaller than this, in standard errors of the estimates, is none. */
const CONVERGED_BELOW = 1e-6;
const MAX_STEPS = 50;
const MAX_HALVINGS = 30;

/** Where k and c stand among the columns, after the levels at the starts; null: held. */
export const placesOf = (
  stretches: number,
  fitted: FitRequest["fitted"],
): { readonly k: number | null; readonly c: number | null } => ({
  k: fitted === "c" ? null : stretches,
  c: fitted === "k" ? null : fitted === "c" ? stretches : stretches + 1,
});

const joined = (parts: readonly Float64Array[]): Float64Array => {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
};

/** Levels of all stretches, one after the other. */
export const levelsOf = (runs: readonly ModelRun[]): Float64Array => joined(runs.map(({ levels }) => levels));

/** Derivatives by what is fitted: the level at the start of each stretch, then k, then c. */
const columnsOf = (runs: readonly ModelRun[], fitted: FitRequest["fitted"]): readonly Float64Array[] => [
  ...runs.map((_, own) => joined(runs.map((run, i) => (i === own ? run.byM0 : new Float64Array(run.levels.length))))),
  ...(fitted === "c" ? [] : [joined(runs.map(({ byK }) => byK))]),
  ...(fitted === "k" ? [] : [joined(runs.map(({ byC }) => byC))]),
];

/** The parameters moved by a step in the order of {@link columnsOf}. */
const moved = (from: FittedParameters, step: readonly number[], fitted: FitRequest["fitted"]): FittedParameters => {
  const { k, c } = placesOf(from.startsKg.length, fitted);
  return {
    startsKg: from.startsKg.map((startKg, i) => startKg + (step[i] as number)),
    kPerDay: from.kPerDay + (k === null ? 0 : (step[k] as number)),
    cKgPerDay: from.cKgPerDay + (c === null ? 0 : (step[c] as number)),
  };
};

/**
 * In coordinates in which the weighted derivatives are orthonormal the step is the residuals' projection, and the normal
 * equations, which k and c spoil by being so alike, are never formed. A step that would make the fit worse is halved.
 * Throws "refused" if it does not settle.
 */
export const leastSquares = (observations: Observations, request: FitRequest): Solution => {
  const { stretches } = observations;
  const { fitted } = request;
  const readings = stretches.flatMap((stretch) => stretch.readings);
  const sigma = readings.map((reading) => reading.sigmaKg);
  const runAll = ({ startsKg, kPerDay, cKgPerDay }: FittedParameters): readonly ModelRun[] =>
    stretches.map(({ timeDays, transfers }, i) =>
      runModel({ m0Kg: startsKg[i] as number, kPerDay, cKgPerDay }, timeDays, transfers),
    );
  const residualsOf = (runs: readonly ModelRun[]): Float64Array => {
    const levels = levelsOf(runs);
    return Float64Array.from(readings, (reading, i) => (reading.massKg - (levels[i] as number)) / reading.sigmaKg);
  };
  const squareOf = (residuals: Float64Array): number => {
    let sum = 0;
    for (const each of residuals) sum += each * each;
    return sum;
  };

  let parameters: FittedParameters = {
    startsKg: stretches.map((stretch) => (stretch.readings[0] as (typeof readings)[number]).massKg),
    ...request.rate,
  };
  for (let count = 0; count < MAX_STEPS; count++) {
    const runs = runAll(parameters);
    const basis = weightedBasis(columnsOf(runs, fitted), sigma);
    const residuals = residualsOf(runs);
    const pull = projections(basis, residuals);
    const length = Math.hypot(...pull);
    if (length < CONVERGED_BELOW) return { parameters, runs, basis };
    const step = pull.map((_, row) =>
      pull.reduce((sum, value, column) => sum + basis.toParameters.get(row, column) * value, 0),
    );
    const before = squareOf(residuals);
    let share = 1;
    let next = moved(parameters, step, fitted);
    // What the step promises must come true in part, but for the last digits of a sum of squares.
    const isWorse = (): boolean => !(squareOf(residualsOf(runAll(next))) <= before * (1 + 1e-12) + 1e-12);
    for (let halvings = 0; isWorse() && halvings < MAX_HALVINGS; halvings++) {
      share /= 2;
      next = moved(
        parameters,
        step.map((value) => value * share),
        fitted,
      );
    }
    parameters = next;
  }
  throw new PlanningError(
    "refused",
    "The fit did not settle. Look for a transfer that is not in the books, or fit k or c alone.",
    "readings",
  );
};

/** Projection of the residuals on each orthonormal column: how far, in standard errors, the best fit still is. */
const projections = ({ q }: WeightedBasis, residuals: Float64Array): number[] =>
  q.map((column) => residuals.reduce((sum, residual, row) => sum + residual * (column[row] as number), 0));
