/** Rows of a table that only add up the others: they are no flight, sortie or reading, and are passed over with a word. */
import { readNumber } from "../../format/read-number.ts";
import type { Layout } from "./row-cells.ts";
import { isBlank, type SourceCell, type SourceLine } from "./source-table.ts";

/** What tables call such a row; common practice, no source. */
const TOTALS = /^(?:(?:grand |sub-? ?)?totals?|sum|sums|\u03a3)(?:\b.*)?$/iu;

/** Columns by which a row says which thing and when: a total has none of them. */
const TELLING: readonly string[] = [
  "key",
  "departs",
  "arrives",
  "loads",
  "returns",
  "at",
  "craft",
  "lander",
  "campaign",
];

/** What two sums of the same figures may differ by, of their size: a table shows rounded ones. */
const ALIKE = 1e-3;

const figureOf = (cell: SourceCell | undefined, decimals: Layout["decimals"]): number =>
  typeof cell === "number" ? cell : typeof cell === "string" ? readNumber(cell, decimals) : Number.NaN;

/** Whether each figure of a row is the sum of the figures above it. */
const addsUp = (row: SourceLine, above: readonly SourceLine[], decimals: Layout["decimals"]): boolean =>
  above.length > 1 &&
  row.cells.every((cell, place) => {
    if (isBlank(cell)) return true;
    const stated = figureOf(cell, decimals);
    const sum = above.reduce((total, { cells }) => {
      const figure = figureOf(cells[place], decimals);
      return Number.isFinite(figure) ? total + figure : total;
    }, 0);
    return Math.abs(stated - sum) <= ALIKE * Math.abs(sum);
  });

/**
 * The rows that only sum up: they say no date, craft or key, and bear a word for it where a name or a place would stand;
 * or, the last row alone, nothing but figures that are the sums of those above. `names`: what is called so in the plan is
 * no total.
 */
export const totalsAmong = (
  rows: readonly SourceLine[],
  { places, decimals }: Pick<Layout, "places" | "decimals">,
  names: ReadonlySet<string>,
): ReadonlySet<SourceLine> => {
  const isTotals = (row: SourceLine, place: number): boolean => {
    const { cells } = row;
    if (TELLING.some((column) => !isBlank(cells[places.get(column)?.index ?? -1]))) return false;
    const first = cells.find((cell) => typeof cell === "string" && /[^\s\d.,+\-\u2212]/.test(cell));
    if (typeof first === "string") return TOTALS.test(first.trim()) && !names.has(first.trim().toLowerCase());
    const isLast = place === rows.length - 1;
    return isLast && cells.some((cell) => !isBlank(cell)) && addsUp(row, rows.slice(0, -1), decimals);
  };
  return new Set(rows.filter(isTotals));
};
