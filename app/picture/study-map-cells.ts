/** The cells of a grid made few: neighbours of one shade as one block, and the sides between those that differ as one line. */

/** Cells from `left` up to `right` and from `bottom` up to `top`, counted in edges. */
export interface Block {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
  readonly shade: number;
}

/** Blocks of one shade; together they cover each cell of a shade above 0 once, and no other. */
export const blocksOf = (
  columns: number,
  rows: number,
  shadeAt: (column: number, row: number) => number,
): readonly Block[] => {
  const done: Block[] = [];
  let open = new Map<string, Block>();
  for (let row = 0; row < rows; row += 1) {
    const now = new Map<string, Block>();
    for (let left = 0, right = 1; left < columns; left = right, right += 1) {
      const shade = shadeAt(left, row);
      while (right < columns && shadeAt(right, row) === shade) right += 1;
      if (!(shade > 0)) continue;
      const key = `${left} ${right} ${shade}`;
      now.set(key, { left, right, bottom: open.get(key)?.bottom ?? row, top: row + 1, shade });
    }
    for (const [key, block] of open) if (!now.has(key)) done.push(block);
    open = now;
  }
  return [...done, ...open.values()];
};

/** Column and row of an edge. */
type Corner = readonly [number, number];

/** Sides of cells between a cell that holds and a neighbour that does not; null: nothing is known of the cell. */
const sidesOf = (
  columns: number,
  rows: number,
  holdsAt: (column: number, row: number) => boolean | null,
): readonly (readonly [Corner, Corner])[] => {
  const differ = (a: boolean | null, b: boolean | null): boolean => a !== null && b !== null && a !== b;
  const sides: (readonly [Corner, Corner])[] = [];
  for (let i = 0; i < columns; i += 1)
    for (let j = 0; j < rows; j += 1) {
      const here = holdsAt(i, j);
      if (i > 0 && differ(holdsAt(i - 1, j), here))
        sides.push([
          [i, j],
          [i, j + 1],
        ]);
      if (j > 0 && differ(holdsAt(i, j - 1), here))
        sides.push([
          [i, j],
          [i + 1, j],
        ]);
    }
  return sides;
};

const named = ([i, j]: Corner): string => `${i} ${j}`;

const isStraight = (a: Corner, b: Corner, c: Corner): boolean =>
  (a[0] === b[0] && b[0] === c[0]) || (a[1] === b[1] && b[1] === c[1]);

/** Lines through corners, each as long as it can be: pieces would show their joints. One that is closed overlaps itself. */
export const boundsOf = (
  columns: number,
  rows: number,
  holdsAt: (column: number, row: number) => boolean | null,
): readonly (readonly Corner[])[] => {
  const sides = sidesOf(columns, rows, holdsAt);
  const free = new Set(sides);
  const atCorner = Map.groupBy(
    sides.flatMap((side) => side.map((corner) => ({ corner: named(corner), side }))),
    ({ corner }) => corner,
  );
  const grow = (line: Corner[]): void => {
    for (let end = line.at(-1); end !== undefined;) {
      const name = named(end);
      const next = atCorner.get(name)?.find(({ side }) => free.has(side))?.side;
      if (next === undefined) return;
      free.delete(next);
      end = named(next[0]) === name ? next[1] : next[0];
      line.push(end);
    }
  };
  return sides.flatMap((side): readonly (readonly Corner[])[] => {
    if (!free.delete(side)) return [];
    const line: Corner[] = [...side];
    grow(line);
    line.reverse();
    grow(line);
    const [first, second] = line;
    const last = line.at(-1);
    if (first !== undefined && second !== undefined && last !== undefined && named(first) === named(last))
      line.push(second);
    return [
      line.filter((corner, n) => {
        const [before, after] = [line[n - 1], line[n + 1]];
        return before === undefined || after === undefined || !isStraight(before, corner, after);
      }),
    ];
  });
};
