/** A table as it came, before anything is known of its meaning. */
import { PlanningError } from "../../ground/failure.ts";
import { MAX_COLUMNS, type Separator } from "../../ledger/column-mapping.ts";

/** A date is an instant as the workbook states it, without a zone. */
export type SourceCell = string | number | boolean | Date | null;

/** Stands, with the cell's place after it, where a workbook holds a formula and not what it came to. */
export const FORMULA_WITHOUT_VALUE = "#formula without a stored value in";

/** One line of a file: a row of a workbook, or a line of text (the one on which its last cell ends), from 1. */
export interface SourceLine {
  readonly line: number;
  readonly cells: readonly SourceCell[];
}

export interface SourceTable {
  /** Trimmed, each once. */
  readonly headings: readonly string[];
  readonly headingLine: number;
  readonly rows: readonly SourceLine[];
  /** null: a workbook. */
  readonly separator: Separator | null;
}

/** At most so many rows in one file. */
export const MAX_ROWS = 200_000;
/** Where the heading may stand: below a title and a few words. */
const MAX_LINES_ABOVE = 12;

export const isBlank = (cell: SourceCell | undefined): boolean =>
  cell === undefined || cell === null || (typeof cell === "string" && cell.trim() === "");

const headingText = (cell: SourceCell): string =>
  (cell instanceof Date ? cell.toISOString() : String(cell ?? "")).replace(/\s+/g, " ").trim().slice(0, 400);

/** "A", "B", … "AA": how spreadsheets call a column. */
const columnLetter = (index: number): string => {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : `${columnLetter(Math.floor(index / 26) - 1)}${letter}`;
};

const widthOf = (lines: readonly SourceLine[]): number => {
  let width = 0;
  for (const { cells } of lines)
    for (let index = cells.length - 1; index >= width; index -= 1)
      if (!isBlank(cells[index])) {
        width = index + 1;
        break;
      }
  return width;
};

const refuseTwice = (headings: readonly string[]): void => {
  const seen = new Set<string>();
  for (const heading of headings) {
    const plain = heading.toLowerCase();
    if (seen.has(plain))
      throw new PlanningError(
        "invalid input",
        `The column “${heading.slice(0, 40)}” stands there twice. Rename one of them, so that it is clear which is meant.`,
        "content",
      );
    seen.add(plain);
  }
};

/**
 * The lines as heading and rows. The heading is the line among the first dozen of which `recognised` knows the most
 * columns; the first line with anything on it if it knows none. Throws "invalid input" for an empty file, a heading that
 * stands twice, too many rows or columns.
 */
export const tableOf = (
  lines: readonly SourceLine[],
  separator: Separator | null,
  recognised: (headings: readonly string[]) => number,
): SourceTable => {
  const filled = lines.filter(({ cells }) => cells.some((cell) => !isBlank(cell)));
  const [first] = filled;
  if (first === undefined)
    throw new PlanningError("invalid input", "The file is empty: there is not even a line of headings.", "content");
  let head = first;
  let best = recognised(first.cells.map(headingText));
  for (const line of filled.slice(1, MAX_LINES_ABOVE)) {
    const known = recognised(line.cells.map(headingText));
    if (known > best) [head, best] = [line, known];
  }
  const rows = filled.slice(filled.indexOf(head) + 1);
  if (rows.length > MAX_ROWS)
    throw new PlanningError(
      "invalid input",
      `The file has ${rows.length} rows; ${MAX_ROWS} at most are taken at a time. Split it.`,
      "content",
    );
  const width = Math.max(widthOf(rows), widthOf([head]));
  if (width > MAX_COLUMNS)
    throw new PlanningError("invalid input", `The file has ${width} columns; ${MAX_COLUMNS} at most.`, "content");
  const headings = Array.from({ length: width }, (_unused, index) => {
    const text = headingText(head.cells[index] ?? null);
    return text === "" ? `column ${columnLetter(index)}, without heading` : text;
  });
  refuseTwice(headings);
  return { headings, headingLine: head.line, rows, separator };
};
