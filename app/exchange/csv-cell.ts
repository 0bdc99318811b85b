/** Reads the cells of one CSV row: text, dates, numbers, names of what is in the plan; collects what is wrong. */
import type { Entity, EntityKind, EntitySet } from "../ledger/entities.ts";
import { readInstant } from "../ledger/time.ts";
import type { CsvFault } from "./csv-preview.ts";
import type { CsvRow } from "./csv-table.ts";

export interface CellReader {
  readonly faults: readonly CsvFault[];
  fault(column: string | null, reason: string): void;
  /** Whether the file has this column. */
  has(column: string): boolean;
  /** The cell's text; "" where it is empty or its column is missing. */
  text(column: string): string;
  /** The cell's text; a fault where it is empty. */
  needed(column: string): string;
  /** An instant; null with a fault where the cell is no date, without where it is empty and may be. */
  instant(column: string, isNeeded: boolean): number | null;
  number(column: string, isNeeded: boolean): number | null;
  /** The row of this kind with this id, or else this name; a fault where there is none, or more than one. */
  named<K extends EntityKind>(
    column: string,
    kind: K,
    plan: EntitySet,
    among?: (row: Entity<K>) => boolean,
  ): Entity<K> | null;
}

const NUMBER = /^[+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/i;
/** Where semicolons part the cells, the comma is the decimal mark. */
const COMMA_NUMBER = /^[+-]?\d+,\d+$/;

const readNumber = (text: string, delimiter: string): number | null => {
  const plain = delimiter === ";" && COMMA_NUMBER.test(text) ? text.replace(",", ".") : text;
  const value = NUMBER.test(plain) ? Number(plain) : Number.NaN;
  return Number.isFinite(value) ? value : null;
};

const MOST_QUOTED = 40;
const quoted = (text: string) => `“${text.slice(0, MOST_QUOTED)}${text.length > MOST_QUOTED ? "…" : ""}”`;

const nameOf = (row: object): string => ("name" in row && typeof row.name === "string" ? row.name : "");

export const cellReader = (row: CsvRow, delimiter: string): CellReader => {
  const faults: CsvFault[] = [];
  const fault = (column: string | null, reason: string): void => {
    faults.push({ line: row.line, column, reason });
  };
  const text = (column: string) => row.cells.get(column) ?? "";
  const needed = (column: string): string => {
    const value = text(column);
    if (value === "") fault(column, "this is needed and empty");
    return value;
  };
  const read = (column: string, isNeeded: boolean, reader: (value: string) => number | null, what: string) => {
    const value = isNeeded ? needed(column) : text(column);
    if (value === "") return null;
    const result = reader(value);
    if (result === null) fault(column, `${quoted(value)} is not ${what}`);
    return result;
  };
  return {
    faults,
    fault,
    has: (column) => row.cells.has(column),
    text,
    needed,
    instant: (column, isNeeded) =>
      read(column, isNeeded, readInstant, "a date such as 2031-02-20 or 2031-02-20T14:05Z (UTC)"),
    number: (column, isNeeded) => read(column, isNeeded, (value) => readNumber(value, delimiter), "a number"),
    named: <K extends EntityKind>(
      column: string,
      kind: K,
      plan: EntitySet,
      among: (row: Entity<K>) => boolean = () => true,
    ) => {
      const value = needed(column);
      if (value === "") return null;
      const rows = (plan[kind] as readonly Entity<K>[]).filter(among);
      const byId = rows.find((candidate) => candidate.id === value);
      if (byId !== undefined) return byId;
      const wanted = value.toLowerCase();
      const byName = rows.filter((candidate) => nameOf(candidate).toLowerCase() === wanted);
      if (byName.length > 1) fault(column, `${quoted(value)} names ${byName.length} of them: give the id`);
      if (byName.length === 0) fault(column, `there is none called ${quoted(value)}`);
      return byName.length === 1 ? (byName[0] ?? null) : null;
    },
  };
};
