/** The rows of a study looked at along one input or two: curves with bands, and maps with what holds. */
import type { StudyAnswer } from "./study-answer.ts";
import { cellAt, rowsIn } from "./study-table.ts";
import { gridCount, gridValue } from "./values.ts";

type Looked = Pick<StudyAnswer, "asked" | "inputs" | "columns" | "rows" | "from">;

/** Place of a column by name; −1: it was not asked. */
export const columnNamed = ({ columns }: Pick<StudyAnswer, "columns">, name: string): number =>
  columns.findIndex((column) => column.name === name);

/** Least probability at which a point is said to hold where the risk alone is asked. */
export const HOLDS_AT = 0.9;

/**
 * Whether the plan holds at a point: by the verdict where it was asked, else every sortie supplied, else all fly when
 * planned in nine runs of ten; null: none of these was asked.
 */
export const holdsAt = (answer: Looked): ((row: number) => boolean) | null => {
  const cell = (name: string) => {
    const column = columnNamed(answer, name);
    return (row: number) => cellAt(answer.rows, row, column);
  };
  const has = (name: string): boolean => columnNamed(answer, name) >= 0;
  if (has("verdict")) {
    const breaks = cell("breaks");
    return (row) => breaks(row) === 0;
  }
  if (has("supplied")) {
    const [supplied, sorties] = [cell("supplied"), cell("sorties")];
    return (row) => supplied(row) === sorties(row);
  }
  if (has("all fly when planned")) {
    const share = cell("all fly when planned");
    return (row) => Number(share(row) ?? 0) >= HOLDS_AT;
  }
  return null;
};

/** What "holds" means in this study, in words; null: nothing asked says. */
export const holdsWords = (answer: Looked): string | null => {
  if (columnNamed(answer, "verdict") >= 0) return "nothing breaks";
  if (columnNamed(answer, "supplied") >= 0) return "every sortie is supplied";
  if (columnNamed(answer, "all fly when planned") >= 0) return "all fly when planned in nine runs of ten";
  return null;
};

/** The values of an input on the grid, in the order of its design; null: the study is no grid. */
export const gridValues = ({ asked }: Pick<StudyAnswer, "asked">, input: number): readonly number[] | null => {
  const values = asked.inputs[input]?.values;
  if (asked.design.kind !== "grid" || values === undefined) return null;
  const count = gridCount(values, "", "");
  return Array.from({ length: count }, (_, index) => gridValue(values, index, count));
};

/** Places on the grid of a point, by input. */
export const placesOf = (answer: Pick<StudyAnswer, "asked">, point: number): readonly number[] => {
  const counts = answer.asked.inputs.map(({ values }) => gridCount(values, "", ""));
  const places: number[] = [];
  let rest = point;
  for (let input = counts.length - 1; input >= 0; input -= 1) {
    const count = counts[input] ?? 1;
    places[input] = rest % count;
    rest = Math.floor(rest / count);
  }
  return places;
};

export interface CurvePoint {
  readonly x: number;
  /** The lowest tenth, the middle and the highest tenth of the points there; for one point its own error or reach. */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly count: number;
}

/** Bins where the points do not lie on a grid. */
const BINS = 20;
/** Half-width of a 95 % interval in standard errors. */
const WIDE = 1.96;

const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;

const numberAt = ({ rows }: Looked, row: number, column: number): number => {
  const cell = cellAt(rows, row, column);
  return typeof cell === "number" ? cell : Number.NaN;
};

/** Low and high end of one point's outcome, where the study itself says: an error, the spread of the delay, what is proved. */
const ownBand = (answer: Looked, column: number): ((row: number) => readonly [number, number]) | null => {
  const name = answer.columns[column]?.name ?? "";
  const error = columnNamed(answer, `${name}: error`);
  if (error >= 0)
    return (row) => {
      const [value, sigma] = [numberAt(answer, row, column), numberAt(answer, row, error)];
      return [Math.max(0, value - WIDE * sigma), Math.min(1, value + WIDE * sigma)];
    };
  if (name.endsWith("delay P50")) {
    const late = columnNamed(answer, name.replace("P50", "P90"));
    return (row) => [numberAt(answer, row, column), numberAt(answer, row, late)];
  }
  const [low, high] = [columnNamed(answer, "at least"), columnNamed(answer, "at most")];
  if ((name === "flights" || name === "cost") && low >= 0)
    return (row) => {
      const value = numberAt(answer, row, column);
      return [Math.min(value, numberAt(answer, row, low)), Math.max(value, numberAt(answer, row, high))];
    };
  return null;
};

/** A number column along an input: over all else that is varied, the middle of the points and where most of them lie. */
export const curveOf = (answer: Looked, input: number, column: number): readonly CurvePoint[] => {
  const count = rowsIn(answer.rows);
  const xs = Array.from({ length: count }, (_, row) => numberAt(answer, row, input));
  const isGrid = answer.asked.design.kind === "grid";
  const [least, most] = xs.reduce(([a, b], x) => [Math.min(a, x), Math.max(b, x)], [Infinity, -Infinity]);
  const binOf = (x: number): number =>
    isGrid || most <= least ? x : Math.min(BINS - 1, Math.floor(((x - least) / (most - least)) * BINS));
  const groups = Map.groupBy(
    xs.map((_, row) => row),
    (row) => binOf(xs[row] ?? 0),
  );
  const band = ownBand(answer, column);
  return [...groups]
    .toSorted(([a], [b]) => a - b)
    .flatMap(([bin, members]): readonly CurvePoint[] => {
      const known = members.filter((row) => Number.isFinite(numberAt(answer, row, column)));
      const [only] = known;
      if (only === undefined) return [];
      const x = isGrid || most <= least ? bin : least + ((bin + 0.5) / BINS) * (most - least);
      if (known.length === 1) {
        const middle = numberAt(answer, only, column);
        const [low, high] = band?.(only) ?? [middle, middle];
        return [{ x, low, middle, high, count: 1 }];
      }
      const sorted = known.map((row) => numberAt(answer, row, column)).toSorted((a, b) => a - b);
      return [
        {
          x,
          low: quantile(sorted, 0.1),
          middle: quantile(sorted, 0.5),
          high: quantile(sorted, 0.9),
          count: known.length,
        },
      ];
    });
};

export interface MapCell {
  readonly row: number;
  readonly x: number;
  readonly y: number;
  readonly value: number;
  readonly holds: boolean | null;
}

export interface MapSlice {
  /** Rising; null: the points lie anywhere. */
  readonly xs: readonly number[] | null;
  readonly ys: readonly number[] | null;
  readonly cells: readonly MapCell[];
}

/**
 * The points in the plane of two inputs. `fixed`: of a grid the places of the other inputs (undefined: all). Cells in the
 * order of the points, those that are known so far.
 */
export const mapOf = (
  answer: Looked,
  across: number,
  up: number,
  column: number,
  fixed: ReadonlyMap<number, number>,
): MapSlice => {
  const holds = holdsAt(answer);
  const isGrid = answer.asked.design.kind === "grid";
  const rows = Array.from({ length: rowsIn(answer.rows) }, (_, row) => row).filter((row) => {
    if (!isGrid || fixed.size === 0) return true;
    const places = placesOf(answer, answer.from + row);
    return [...fixed].every(([input, place]) => places[input] === place);
  });
  const rising = (values: readonly number[] | null): readonly number[] | null =>
    values === null ? null : values.toSorted((a, b) => a - b);
  return {
    xs: rising(gridValues(answer, across)),
    ys: rising(gridValues(answer, up)),
    cells: rows.map((row) => ({
      row,
      x: numberAt(answer, row, across),
      y: numberAt(answer, row, up),
      value: numberAt(answer, row, column),
      holds: holds?.(row) ?? null,
    })),
  };
};

/** The columns that a picture can show: numbers, after the inputs, without the errors of others. */
export const outcomeColumns = ({ columns, inputs, rows }: Looked): readonly number[] =>
  columns.flatMap(({ name }, column) =>
    column < inputs.length || rows.wordColumns.includes(column) || name.endsWith(": error") ? [] : [column],
  );

/** Along a curve of one input, where the plan begins or ceases to hold: between two neighbouring values. */
export const turnsOf = (answer: Looked): readonly { readonly below: number; readonly above: number }[] => {
  const holds = holdsAt(answer);
  if (holds === null || answer.inputs.length !== 1) return [];
  const rows = Array.from({ length: rowsIn(answer.rows) }, (_, row) => ({ x: numberAt(answer, row, 0), row })).toSorted(
    (a, b) => a.x - b.x,
  );
  return rows.slice(1).flatMap(({ x, row }, n) => {
    const before = rows[n];
    return before !== undefined && holds(before.row) !== holds(row) ? [{ below: before.x, above: x }] : [];
  });
};
