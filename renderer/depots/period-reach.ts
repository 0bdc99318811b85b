/**
 * Where the pieces of one tank's line can be pressed. A short piece is drawn as short as it is and can be pressed in a
 * wider place (WCAG 2.2, 2.5.8: 24 CSS pixels), which it takes from its neighbours; none lies on another.
 */

/** From and to along the line, pixels. */
export interface Reach {
  readonly from: number;
  readonly until: number;
}

export const LEAST_REACH = 24;

interface Pool {
  readonly sum: number;
  readonly count: number;
}

/** The nearest row that never falls, by least squares: neighbours that do are put together at their mean. */
const neverFalling = (values: readonly number[]): readonly number[] => {
  const pools: Pool[] = [];
  for (const value of values) {
    let pool: Pool = { sum: value, count: 1 };
    for (;;) {
      const before = pools.at(-1);
      if (before === undefined || before.sum / before.count <= pool.sum / pool.count) break;
      pools.pop();
      pool = { sum: before.sum + pool.sum, count: before.count + pool.count };
    }
    pools.push(pool);
  }
  return pools.flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count));
};

/**
 * In the order of the pieces, which follow each other and may leave gaps: edges moved as little as can be so that each
 * piece has `LEAST_REACH`, or an even share of the line where it has no room for that. `width` of the line, pixels.
 */
export const reachOf = (pieces: readonly Reach[], width: number): readonly Reach[] => {
  if (pieces.length === 0) return [];
  const least = Math.min(LEAST_REACH, width / pieces.length);
  // With the least width of all pieces before taken off, the edges need only follow each other.
  const edges = pieces.flatMap(({ from, until }, place) => [from - place * least, until - (place + 1) * least]);
  const most = width - pieces.length * least;
  const moved = neverFalling(edges).map((edge) => Math.min(most, Math.max(0, edge)));
  return pieces.map((_, place) => ({
    from: (moved[2 * place] ?? 0) + place * least,
    until: (moved[2 * place + 1] ?? 0) + (place + 1) * least,
  }));
};
