/** Fits k, c or both on the gauge readings between known transfers: estimate, interval, residuals, what it cannot tell. */
import type { Reading } from "../../ledger/journal.ts";
import { fittedCurve } from "./fitted-curve.ts";
import type { FitResult, FittedReading, Interval } from "./fit-result.ts";
import { adoptObstacle, fitMessages } from "./fit-messages.ts";
import { leastSquares, levelsOf, placesOf, type Solution } from "./least-squares.ts";
import { FLAGGED_BEYOND_SIGMA, type FitRequest, observe } from "./observations.ts";
import { chiSquareQuantile, tQuantile } from "./quantile.ts";

/** Two-sided 95 % quantile of the normal distribution. */
const NORMAL_95 = 1.959963984540054;

const fittedReadings = (used: readonly Reading[], { runs, basis }: Solution): readonly FittedReading[] => {
  const levels = levelsOf(runs);
  return used.map((reading, i) => {
    const fittedKg = levels[i] as number;
    const residualKg = reading.massKg - fittedKg;
    const leverage = basis.q.reduce((sum, column) => sum + (column[i] as number) ** 2, 0);
    // With as many parameters as readings the fit goes through them: no residual to judge.
    const ownSigma = reading.sigmaKg * Math.sqrt(Math.max(0, 1 - leverage));
    const residualInSigma = ownSigma > 1e-9 * reading.sigmaKg ? residualKg / ownSigma : 0;
    const { id: readingId, at, massKg, sigmaKg } = reading;
    const isFlagged = Math.abs(residualInSigma) > FLAGGED_BEYOND_SIGMA;
    return { readingId, at, massKg, sigmaKg, fittedKg, residualKg, residualInSigma, isFlagged };
  });
};

interface Scatter {
  readonly reducedChiSquare: number | null;
  /** Where 95 % of reduced χ² lie if σ is stated well. */
  readonly reducedChiSquareRange: Interval | null;
  /** Half a 95 % interval in standard errors by the stated σ. */
  readonly spread: number;
}

/**
 * Readings that happen to lie close prove no better gauge: the spread is never below that of the stated σ, and grows with
 * √χ² above 1. Where χ² is beyond its range the stated σ is refuted; what is left is the readings' own scatter, and with
 * it Student's t.
 */
const scatterOf = (chiSquare: number, degreesOfFreedom: number): Scatter => {
  if (degreesOfFreedom === 0) return { reducedChiSquare: null, reducedChiSquareRange: null, spread: NORMAL_95 };
  const reducedChiSquare = chiSquare / degreesOfFreedom;
  const reducedChiSquareRange = {
    low: chiSquareQuantile(0.025, degreesOfFreedom) / degreesOfFreedom,
    high: chiSquareQuantile(0.975, degreesOfFreedom) / degreesOfFreedom,
  };
  const isRefuted = reducedChiSquare > reducedChiSquareRange.high;
  const spread =
    (isRefuted ? tQuantile(0.975, degreesOfFreedom) : NORMAL_95) * Math.sqrt(Math.max(1, reducedChiSquare));
  return { reducedChiSquare, reducedChiSquareRange, spread };
};

/**
 * 95 % intervals by the stated σ of the readings, wider where they scatter more than it says, never narrower.
 * Throws "invalid input" for readings that cannot be used and "refused" where they do not suffice.
 */
export const fitRate = (request: FitRequest): FitResult => {
  const observations = observe(request);
  const solution = leastSquares(observations, request);
  const { parameters, runs, basis } = solution;
  const { fitted } = request;
  const { kPerDay, cKgPerDay, startsKg } = parameters;
  const used = observations.stretches.flatMap((stretch) => stretch.readings);
  const readings = fittedReadings(used, solution);
  const degreesOfFreedom = readings.length - basis.q.length;
  const chiSquare = readings.reduce((sum, each) => sum + (each.residualKg / each.sigmaKg) ** 2, 0);
  const { reducedChiSquare, reducedChiSquareRange, spread } = scatterOf(chiSquare, degreesOfFreedom);

  const { covariance } = basis;
  const { k: kPlace, c: cPlace } = placesOf(startsKg.length, fitted);
  const interval = (value: number, variance: number): Interval => {
    const half = spread * Math.sqrt(Math.max(0, variance));
    return { low: value - half, high: value + half };
  };
  const intervalAt = (value: number, index: number | null): Interval | null =>
    index === null ? null : interval(value, covariance.get(index, index));

  const meanLevelKg = levelsOf(runs).reduce((sum, level) => sum + level, 0) / used.length;
  const lossKgPerDay = kPerDay * meanLevelKg + cKgPerDay;
  const lossBy = [...startsKg.map(() => 0), ...(kPlace === null ? [] : [meanLevelKg]), ...(cPlace === null ? [] : [1])];
  const lossVariance = lossBy.reduce(
    (sum, a, i) => sum + lossBy.reduce((inner, b, j) => inner + a * b * covariance.get(i, j), 0),
    0,
  );

  const first = used[0] as Reading;
  const last = used.at(-1) ?? first;
  const result: Omit<FitResult, "messages" | "cannotAdoptBecause"> = {
    fitted,
    kPerDay,
    cKgPerDay,
    m0Kg: startsKg[0] as number,
    kInterval: intervalAt(kPerDay, kPlace),
    cInterval: intervalAt(cKgPerDay, cPlace),
    meanLevelKg,
    lossKgPerDay,
    lossInterval: interval(lossKgPerDay, lossVariance),
    correlation:
      kPlace === null || cPlace === null
        ? null
        : covariance.get(kPlace, cPlace) / Math.sqrt(covariance.get(kPlace, kPlace) * covariance.get(cPlace, cPlace)),
    readings,
    apart: observations.apart.map(({ id: readingId, at, massKg, sigmaKg }) => ({ readingId, at, massKg, sigmaKg })),
    stretches: startsKg.length,
    flagged: readings.filter((each) => each.isFlagged).length,
    degreesOfFreedom,
    reducedChiSquare,
    reducedChiSquareRange,
    firstAt: first.at,
    lastAt: last.at,
    curve: fittedCurve(observations, solution, fitted, spread),
  };
  return {
    ...result,
    messages: [...observations.messages, ...fitMessages(result)],
    cannotAdoptBecause: adoptObstacle(result),
  };
};
