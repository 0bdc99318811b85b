/** Puts bars that overlap in time on rows of their own, as few as need be. */

export interface Span {
  readonly id: string;
  readonly fromAt: number;
  readonly untilAt: number;
}

export interface Packing {
  readonly rowOf: ReadonlyMap<string, number>;
  readonly rows: number;
}

/** First fit by start: the least number of rows there can be. At least one row. `gapMs` is kept between bars of a row. */
export const packRows = (spans: readonly Span[], gapMs: number): Packing => {
  const ends: number[] = [];
  const rowOf = new Map<string, number>();
  for (const span of [...spans].sort((a, b) => a.fromAt - b.fromAt)) {
    const free = ends.findIndex((end) => end + gapMs <= span.fromAt);
    const row = free >= 0 ? free : ends.length;
    ends[row] = span.untilAt;
    rowOf.set(span.id, row);
  }
  return { rowOf, rows: Math.max(1, ends.length) };
};
