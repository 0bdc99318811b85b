/** The weighted derivatives of a model, made orthonormal: the coordinates in which a fit is well-conditioned. */
import { Matrix } from "ml-matrix";
import { PlanningError } from "../../ground/failure.ts";
import { thinQr } from "./thin-qr.ts";

export interface WeightedBasis {
  /** Orthonormal columns, one a parameter, each as long as there are readings. */
  readonly q: readonly Float64Array[];
  /** Turns a step in orthonormal coordinates into one in the parameters. */
  readonly toParameters: Matrix;
  /** Covariance of the parameters when each reading has the variance its weight says. */
  readonly covariance: Matrix;
}

/** Smallest part of a unit column that the others may leave of it before it counts as dependent. */
const DEPENDENT_BELOW = 1e-9;

/**
 * QR of the columns, each first scaled to length 1 so that k (of order 1e-3) and c (of order 10) weigh alike.
 * Throws "refused" where a column is nothing or follows from the others: the readings cannot tell the parameters apart.
 */
export const weightedBasis = (columns: readonly Float64Array[], sigma: readonly number[]): WeightedBasis => {
  const weighted = columns.map((column) => column.map((value, i) => value / (sigma[i] as number)));
  const lengths = weighted.map((column) => Math.sqrt(column.reduce((square, value) => square + value * value, 0)));
  const isFinite = lengths.every((length) => length > 0 && Number.isFinite(length));
  const scaled = weighted.map((column, j) =>
    isFinite ? column.map((value) => value / (lengths[j] as number)) : column,
  );
  const { q, r } = thinQr(scaled);
  if (!isFinite || lengths.some((_, j) => Math.abs(r.get(j, j)) < DEPENDENT_BELOW)) {
    throw new PlanningError(
      "refused",
      "These readings cannot tell k from c, or either from the level at the start.",
      "readings",
    );
  }
  const toParameters = backSubstitute(r);
  for (const [j, length] of lengths.entries()) toParameters.mulRow(j, 1 / length);
  return { q, toParameters, covariance: toParameters.mmul(toParameters.transpose()) };
};

/** Inverse of an upper triangle, column by column. */
const backSubstitute = (r: Matrix): Matrix => {
  const p = r.columns;
  const inverse = Matrix.zeros(p, p);
  for (let column = 0; column < p; column++) {
    for (let row = column; row >= 0; row--) {
      let value = row === column ? 1 : 0;
      for (let k = row + 1; k <= column; k++) value -= r.get(row, k) * inverse.get(k, column);
      inverse.set(row, column, value / r.get(row, row));
    }
  }
  return inverse;
};
