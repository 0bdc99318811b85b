/**
 * QR of a tall matrix held by columns, by Householder reflections (Golub and Van Loan, Matrix Computations, 5.2): a hundred
 * thousand readings are a few long arrays, not a hundred thousand short ones.
 */
import { Matrix } from "ml-matrix";

export interface ThinQr {
  /** Orthonormal, as long as the columns given. */
  readonly q: readonly Float64Array[];
  /** Upper triangle. */
  readonly r: Matrix;
}

/** From the reflection's own row on: a += factor · v. */
const add = (a: Float64Array, v: Float64Array, factor: number, from: number): void => {
  for (let i = from; i < a.length; i++) a[i] = (a[i] as number) + factor * (v[i] as number);
};

const dot = (a: Float64Array, b: Float64Array, from: number): number => {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
};

/** Not more columns than rows, all finite. A column that follows from those before it leaves a 0 on r's diagonal. */
export const thinQr = (columns: readonly Float64Array[]): ThinQr => {
  const p = columns.length;
  const r = Matrix.zeros(p, p);
  const rest = columns.map((column) => Float64Array.from(column));
  // What reflects column k to a single figure: v, and 2 over its square.
  const scales: number[] = [];
  for (const [k, v] of rest.entries()) {
    const length = Math.sqrt(dot(v, v, k));
    const pivot = v[k] ?? 0;
    const onDiagonal = pivot > 0 ? -length : length;
    for (let row = 0; row < k; row++) r.set(row, k, v[row] as number);
    r.set(k, k, onDiagonal);
    v[k] = pivot - onDiagonal;
    const square = dot(v, v, k);
    const scale = square > 0 ? 2 / square : 0;
    scales.push(scale);
    for (const later of rest.slice(k + 1)) add(later, v, -scale * dot(v, later, k), k);
  }
  const q = columns.map((column, index) => {
    const unit = new Float64Array(column.length);
    unit[index] = 1;
    for (let k = p - 1; k >= 0; k--) {
      const v = rest[k] as Float64Array;
      add(unit, v, -(scales[k] as number) * dot(v, unit, k), k);
    }
    return unit;
  });
  return { q, r };
};
