/** Weighted least squares of the level model on the readings: Gauss–Newton, each step solved by the QR of the weighted derivatives. */
import { PlanningError } from "../../contract/failure.ts";
import { type ModelParameters, type ModelRun, runModel } from "./level-model.ts";
import type { FitRequest, Observations } from "./observations.ts";
import { type WeightedBasis, weightedBasis } from "./weighted-basis.ts";

export interface Solution {
  readonly parameters: ModelParameters;
  readonly run: ModelRun;
  /** At the solution; columns in the order of {@link columnsOf}. */
  readonly basis: WeightedBasis;
}

/** A step smaller than this, in standard errors of the estimates, is none. */
const CONVERGED_BELOW = 1e-6;
const MOST_STEPS = 50;
const MOST_HALVINGS = 30;

/** Derivatives by what is fitted: the level at the start, then k, then c. */
export const columnsOf = (run: ModelRun, fitted: FitRequest["fitted"]): readonly Float64Array[] => [
  run.byM0,
  ...(fitted === "c" ? [] : [run.byK]),
  ...(fitted === "k" ? [] : [run.byC]),
];

/** The parameters moved by a step in the order of {@link columnsOf}. */
const moved = (from: ModelParameters, step: readonly number[], fitted: FitRequest["fitted"]): ModelParameters => ({
  m0Kg: from.m0Kg + (step[0] as number),
  kPerDay: fitted === "c" ? from.kPerDay : from.kPerDay + (step[1] as number),
  cKgPerDay: fitted === "k" ? from.cKgPerDay : from.cKgPerDay + (step[fitted === "c" ? 1 : 2] as number),
});

/**
 * In coordinates in which the weighted derivatives are orthonormal the step is the residuals' projection, and the normal
 * equations, which k and c spoil by being so alike, are never formed. A step that would make the fit worse is halved.
 * Throws "refused" if it does not settle.
 */
export const leastSquares = (observations: Observations, request: FitRequest): Solution => {
  const { readings, timeDays, transfers } = observations;
  const { fitted } = request;
  const sigma = readings.map((reading) => reading.sigmaKg);
  const residualsOf = (run: ModelRun): Float64Array =>
    Float64Array.from(readings, (reading, i) => (reading.massKg - (run.levels[i] as number)) / reading.sigmaKg);
  const squareOf = (residuals: Float64Array): number => {
    let sum = 0;
    for (const each of residuals) sum += each * each;
    return sum;
  };

  let parameters: ModelParameters = { m0Kg: (readings[0] as (typeof readings)[number]).massKg, ...request.rate };
  for (let count = 0; count < MOST_STEPS; count++) {
    const run = runModel(parameters, timeDays, transfers);
    const basis = weightedBasis(columnsOf(run, fitted), sigma);
    const residuals = residualsOf(run);
    const pull = projections(basis, residuals);
    const length = Math.hypot(...pull);
    if (length < CONVERGED_BELOW) return { parameters, run, basis };
    const step = pull.map((_, row) =>
      pull.reduce((sum, value, column) => sum + basis.toParameters.get(row, column) * value, 0),
    );
    const before = squareOf(residuals);
    let share = 1;
    let next = moved(parameters, step, fitted);
    // What the step promises must come true in part, but for the last digits of a sum of squares.
    const isWorse = (): boolean =>
      !(squareOf(residualsOf(runModel(next, timeDays, transfers))) <= before * (1 + 1e-12) + 1e-12);
    for (let halvings = 0; isWorse() && halvings < MOST_HALVINGS; halvings++) {
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
  Array.from({ length: q.columns }, (_, column) =>
    residuals.reduce((sum, residual, row) => sum + residual * q.get(row, column), 0),
  );
