/** The part of a line (x and y in turn, from left to right) between two uprights. */
export const partOf = (points: readonly number[], fromX: number, untilX: number): readonly number[] => {
  const part: number[] = [];
  for (let index = 0; index + 3 < points.length; index += 2) {
    const [xa = 0, ya = 0, xb = 0, yb = 0] = points.slice(index, index + 4);
    if (xb < fromX || xa > untilX) continue;
    const at = (x: number): number => (xb === xa ? ya : ya + ((yb - ya) * (x - xa)) / (xb - xa));
    const [left, right] = [Math.max(xa, fromX), Math.min(xb, untilX)];
    if (part.length === 0) part.push(left, left === xa ? ya : at(left));
    part.push(right, right === xb ? yb : at(right));
  }
  return part;
};
