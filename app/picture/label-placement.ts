/** Where labels go so that none covers another. */

/** A label that wants to stand at `at` and takes `size` pixels. */
export interface Wanted {
  readonly at: number;
  readonly size: number;
}

/**
 * Middles of labels on one line, in the order given, moved apart as little as possible (least squares) so that none
 * overlaps and all stay within [from, until]; if they cannot all fit, they are packed from `from` on.
 * Method: pool adjacent violators, as in isotonic regression.
 */
export const dodge = (wanted: readonly Wanted[], from: number, until: number): readonly number[] => {
  const order = wanted.map((_, index) => index).sort((a, b) => (wanted[a]?.at ?? 0) - (wanted[b]?.at ?? 0));
  // Each block stands as one; `start` is its upper edge.
  const blocks: { members: number[]; sum: number; size: number; start: number }[] = [];
  const place = (sum: number, count: number, size: number): number =>
    Math.max(from, Math.min(until - size, sum / count));
  for (const index of order) {
    const label = wanted[index];
    if (label === undefined) continue;
    const start = label.at - label.size / 2;
    let block = { members: [index], sum: start, size: label.size, start: place(start, 1, label.size) };
    for (let last = blocks.at(-1); last !== undefined && last.start + last.size > block.start; last = blocks.at(-1)) {
      blocks.pop();
      const sum = last.sum + block.sum - block.members.length * last.size;
      const members = [...last.members, ...block.members];
      const size = last.size + block.size;
      block = { members, sum, size, start: place(sum, members.length, size) };
    }
    blocks.push(block);
  }
  const middles: number[] = wanted.map(() => 0);
  for (const block of blocks) {
    let edge = block.start;
    for (const index of block.members) {
      const size = wanted[index]?.size ?? 0;
      middles[index] = edge + size / 2;
      edge += size;
    }
  }
  return middles;
};
