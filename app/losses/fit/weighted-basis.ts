/** The weighted derivatives of a model, made orthonormal: the coordinates in which a fit is well-conditioned. */
import { Matrix, QrDecomposition } from "ml-matrix";
import { PlanningError } from "../../ground/failure.ts";

export interface WeightedBasis {
  /** Orthonormal columns, one a parameter; rows are the readings. */
  readonly q: Matrix;
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
  const n = sigma.length;
  const p = columns.length;
  const weighted = new Matrix(n, p);
  const lengths: number[] = [];
  for (const [j, column] of columns.entries()) {
    let square = 0;
    for (let i = 0; i < n; i++) {
      const value = (column[i] as number) / (sigma[i] as number);
      weighted.set(i, j, value);
      square += value * value;
    }
    lengths.push(Math.sqrt(square));
  }
  const isFinite = lengths.every((length) => length > 0 && Number.isFinite(length));
  if (isFinite) for (const [j, length] of lengths.entries()) weighted.mulColumn(j, 1 / length);
  const qr = new QrDecomposition(weighted);
  const r = qr.upperTriangularMatrix;
  if (!isFinite || lengths.some((_, j) => Math.abs(r.get(j, j)) < DEPENDENT_BELOW)) {
    throw new PlanningError(
      "refused",
      "These readings cannot tell k from c, or either from the level at the start.",
      "readings",
    );
  }
  const toParameters = backSubstitute(r);
  for (const [j, length] of lengths.entries()) toParameters.mulRow(j, 1 / length);
  return { q: qr.orthogonalMatrix, toParameters, covariance: toParameters.mmul(toParameters.transpose()) };
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
