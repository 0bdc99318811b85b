/** The interpolating cubic spline with not-a-knot ends, error of fourth order in the spacing. */

export interface CubicSpline {
  /** Value at x; x must lie within the knots. */
  at(x: number): number;
}

/**
 * Spline through (x[i], y[i]), x strictly rising, at least four knots. The third derivative is continuous at the second
 * and the last-but-one knot (de Boor, A Practical Guide to Splines, chapter IV), so the ends keep the fourth order.
 */
export const cubicSpline = (x: readonly number[], y: readonly number[]): CubicSpline => {
  const n = x.length;
  if (n < 4 || y.length !== n) throw new RangeError("a cubic spline needs four knots or more");
  const at = (list: ArrayLike<number>, i: number): number => list[i] as number;
  const h = (i: number): number => at(x, i + 1) - at(x, i);
  const rise = (i: number): number => (at(y, i + 1) - at(y, i)) / h(i);

  // Slopes at the knots: a tridiagonal system, one row a knot.
  const low = new Float64Array(n);
  const mid = new Float64Array(n);
  const high = new Float64Array(n);
  const right = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    low[i] = h(i);
    mid[i] = 2 * (h(i - 1) + h(i));
    high[i] = h(i - 1);
    right[i] = 3 * (h(i) * rise(i - 1) + h(i - 1) * rise(i));
  }
  const first = h(0) + h(1);
  mid[0] = h(1);
  high[0] = first;
  right[0] = ((h(0) + 2 * first) * h(1) * rise(0) + h(0) ** 2 * rise(1)) / first;
  const last = h(n - 2) + h(n - 3);
  mid[n - 1] = h(n - 3);
  low[n - 1] = last;
  right[n - 1] = (h(n - 2) ** 2 * rise(n - 3) + (2 * last + h(n - 2)) * h(n - 3) * rise(n - 2)) / last;
  for (let i = 1; i < n; i++) {
    const w = at(low, i) / at(mid, i - 1);
    mid[i] = at(mid, i) - w * at(high, i - 1);
    right[i] = at(right, i) - w * at(right, i - 1);
  }
  const slope = new Float64Array(n);
  slope[n - 1] = at(right, n - 1) / at(mid, n - 1);
  for (let i = n - 2; i >= 0; i--) slope[i] = (at(right, i) - at(high, i) * at(slope, i + 1)) / at(mid, i);

  return {
    at: (value) => {
      let lower = 0;
      let upper = n - 1;
      while (upper - lower > 1) {
        const middle = (lower + upper) >> 1;
        if (at(x, middle) <= value) lower = middle;
        else upper = middle;
      }
      const width = h(lower);
      const t = (value - at(x, lower)) / width;
      const s = 1 - t;
      return (
        s * s * ((1 + 2 * t) * at(y, lower) + t * width * at(slope, lower)) +
        t * t * ((3 - 2 * t) * at(y, lower + 1) - s * width * at(slope, lower + 1))
      );
    },
  };
};
