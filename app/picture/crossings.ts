/** Where upright lines at even distances cross the edges of an area. */

/**
 * For each multiple x of `step` whose line (through x + 0.5) meets the closed area of `points` (x and y in turn): the
 * heights at which it crosses the edge, in order; between the first and second it is inside, and so on (even-odd rule). Lines left of `fromX` are left out.
 */
export const crossings = (
  points: ArrayLike<number>,
  step: number,
  fromX = -Infinity,
): ReadonlyMap<number, readonly number[]> => {
  const found = new Map<number, number[]>();
  const count = points.length / 2;
  for (let i = 0; i < count; i += 1) {
    const next = i + 1 === count ? 0 : i + 1;
    const [xa = 0, ya = 0] = [points[2 * i], points[2 * i + 1]];
    const [xb = 0, yb = 0] = [points[2 * next], points[2 * next + 1]];
    const [low, high] = xa < xb ? [Math.max(xa, fromX), xb] : [Math.max(xb, fromX), xa];
    // The left end belongs to an edge, the right end to its neighbour.
    for (let x = Math.ceil((low - 0.5) / step) * step; x + 0.5 < high; x += step) {
      const y = ya + ((yb - ya) * (x + 0.5 - xa)) / (xb - xa);
      const known = found.get(x);
      if (known === undefined) found.set(x, [y]);
      else known.push(y);
    }
  }
  for (const heights of found.values()) if (heights.length > 1) heights.sort((a, b) => a - b);
  return found;
};
