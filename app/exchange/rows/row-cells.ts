/** Reads the cells of one row by our columns, gathering what is wrong instead of stopping at the first. */
import { withoutGuard } from "../../format/neutralise.ts";
import type { ColumnUnit } from "../../ledger/column-mapping.ts";
import type { DateForm } from "../../format/read-date.ts";
import type { DecimalSign } from "../../format/read-number.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { clockOfCell, readClock } from "../../format/read-clock.ts";
import { instantOfSerial, readDate } from "../../format/read-date.ts";
import { readNumber } from "../../format/read-number.ts";
import { isNear } from "./near-names.ts";
import { clockOf } from "./our-columns.ts";
import type { ResolvedMapping } from "./resolve-mapping.ts";
import type { RowFault } from "./rows-preview.ts";
import { FORMULA_WITHOUT_VALUE, isBlank, type SourceCell, type SourceLine } from "./source-table.ts";

interface Named {
  readonly id: string;
  readonly name: string;
}

/** Where each of our columns stands, and how it is to be read. */
export interface Layout {
  readonly width: number;
  readonly places: ReadonlyMap<string, { readonly index: number; readonly unit: ColumnUnit | null }>;
  readonly headings: readonly string[];
  /** Instants whose time of day has a column of its own. */
  readonly clocks: readonly { readonly date: string; readonly clock: string }[];
  readonly dates: DateForm;
  readonly decimals: DecimalSign;
  readonly isWorkbook: boolean;
}

export interface RowCells {
  readonly faults: readonly RowFault[];
  /** Goes on with another row of the same table, without faults. */
  turnTo(row: SourceLine): void;
  fault(column: string | null, reason: string): void;
  /** Whether the file has this column of ours. */
  covers(column: string): boolean;
  has(column: string): boolean;
  text(column: string): string;
  /** In kg, days or per cent; null where it is none (a fault). */
  figure(column: string): number | null;
  instant(column: string): number | null;
  /** The thing that a cell names by id or by name. */
  one<T extends Named>(column: string, what: string, rows: Lookup<T>): T | null;
  choice<T extends string>(column: string, choices: readonly T[], before: T): T;
}

/** Things by id and by name in lower case. */
export interface Lookup<T extends Named> {
  find(text: string): T | null;
  /** The name that is nearly this; null: there is none. */
  near(text: string): string | null;
}

export const lookupOf = <T extends Named>(rows: readonly T[]): Lookup<T> => {
  const byName = new Map(rows.toReversed().map((row) => [row.name.toLowerCase(), row]));
  const ids = new Map(rows.map((row) => [row.id, row]));
  return {
    find: (text) => ids.get(text) ?? byName.get(text.toLowerCase()) ?? null,
    near: (text) => rows.find(({ name }) => isNear(name, text))?.name ?? null,
  };
};

/** The pound is 0.45359237 kg, exactly (international yard and pound agreement of 1959). */
const perUnit: Readonly<Record<ColumnUnit, number>> = { kg: 1, t: 1000, lb: 0.45359237, days: 1, hours: 1 / 24 };

/** 0.1 t is 100 kg, and not 100.00000000000001. */
const inOurs = (value: number, unit: ColumnUnit | null): number => {
  if (unit === null || perUnit[unit] === 1) return value;
  return Number((value * perUnit[unit]).toPrecision(15));
};

/** Spreadsheets keep instants as parts of a day, a little beside the whole second. */
const wholeSecond = (at: number): number => {
  const second = Math.round(at / 1000) * 1000;
  return Math.abs(at - second) <= 2 ? second : at;
};

const isUncomputed = (cell: SourceCell): boolean => typeof cell === "string" && cell.startsWith(FORMULA_WITHOUT_VALUE);

const shown = (cell: SourceCell): string =>
  `“${(cell instanceof Date ? cell.toISOString() : String(cell)).slice(0, 40)}”`;

export const layoutOf = (mapping: ResolvedMapping, isWorkbook: boolean): Layout => {
  const places = new Map(
    mapping.columns.flatMap(({ to, unit, decision }, index) =>
      to === null || decision === "undecided" ? [] : [[to, { index, unit }] as const],
    ),
  );
  return {
    width: mapping.columns.length,
    places,
    headings: mapping.columns.map(({ heading }) => heading),
    clocks: [...places.keys()].flatMap((date) => (places.has(clockOf(date)) ? [{ date, clock: clockOf(date) }] : [])),
    dates: mapping.dates.value ?? "year first",
    decimals: mapping.decimals.value ?? "point",
    isWorkbook,
  };
};

/** Made once and turned from row to row where there are very many; rows that are looked at again have their own. */
export const rowCells = (layout: Layout): RowCells => {
  let row: SourceLine = { line: 0, cells: [] };
  const faults: RowFault[] = [];
  const cellOf = (column: string): SourceCell => {
    const place = layout.places.get(column);
    return place === undefined ? null : (row.cells[place.index] ?? null);
  };
  const headingOf = (column: string): string => {
    const place = layout.places.get(column);
    return place === undefined ? column : (layout.headings[place.index] ?? column);
  };
  const fault = (column: string | null, reason: string): void =>
    void faults.push({ line: row.line, column: column === null ? null : headingOf(column), reason });
  const textOf = (column: string): string => {
    const cell = cellOf(column);
    if (cell === null) return "";
    if (isUncomputed(cell)) {
      const place = String(cell).slice(FORMULA_WITHOUT_VALUE.length).trim();
      fault(
        column,
        `Cell ${place} holds a formula, and the file does not say what it came to. Open the workbook in the program that made it and save it.`,
      );
      return "";
    }
    return cell instanceof Date ? cell.toISOString() : withoutGuard(String(cell));
  };
  /** The date and, where it stands in the same cell, its time. */
  const dateOf = (column: string): number | null => {
    const cell = cellOf(column);
    if (cell instanceof Date) return wholeSecond(cell.getTime());
    if (typeof cell === "number" && layout.isWorkbook) {
      const at = instantOfSerial(cell);
      if (at !== null) return wholeSecond(at);
    }
    if (isUncomputed(cell)) {
      textOf(column);
      return null;
    }
    const at = isBlank(cell) ? null : readDate(textOf(column), layout.dates);
    if (at === null)
      fault(
        column,
        isBlank(cell)
          ? "A date is needed here."
          : `${shown(cell)} is not a date${layout.dates === "year first" ? "" : ` (${layout.dates})`}. Write 2031-02-20 or 2031-02-20T14:05Z (UTC).`,
      );
    return layout.dates === "serial" && at !== null ? wholeSecond(at) : at;
  };
  const clockIn = (column: string): number | null => {
    const cell = cellOf(column);
    if (isUncomputed(cell)) {
      textOf(column);
      return null;
    }
    const clock =
      cell instanceof Date || (typeof cell === "number" && (layout.isWorkbook || layout.dates === "serial"))
        ? clockOfCell(cell)
        : readClock(isBlank(cell) ? "" : textOf(column));
    if (clock === null)
      fault(
        column,
        isBlank(cell)
          ? "A time of day is needed here, as 14:05 (UTC); 00:00 for midnight."
          : `${shown(cell)} is not a time of day. Write 14:05, or 14:05+02:00 where it is not UTC.`,
      );
    return clock;
  };
  const instantOf = (column: string): number | null => {
    const at = dateOf(column);
    const clockColumn = clockOf(column);
    if (at === null || !layout.places.has(clockColumn)) return at;
    const clock = clockIn(clockColumn);
    if (clock === null) return null;
    if (at % DAY_MS === 0) return wholeSecond(at + clock);
    fault(
      column,
      `${shown(cellOf(column))} has a time of its own, and so has “${headingOf(clockColumn)}”. Leave one of the two out.`,
    );
    return null;
  };
  return {
    faults,
    turnTo: (next) => {
      row = next;
      faults.length = 0;
      // A workbook leaves out empty cells at the end of a row; text that does so has lost a cell somewhere.
      if (!layout.isWorkbook && row.cells.length !== layout.width)
        fault(null, `This row has ${row.cells.length} cells; the heading has ${layout.width}.`);
      for (const { date, clock } of layout.clocks)
        if (isBlank(cellOf(date)) && !isBlank(cellOf(clock)))
          fault(clock, `${shown(cellOf(clock))} has no date: “${headingOf(date)}” is empty.`);
    },
    fault,
    covers: (column) => layout.places.has(column),
    has: (column) => !isBlank(cellOf(column)),
    text: textOf,
    figure: (column) => {
      const cell = cellOf(column);
      if (isBlank(cell)) {
        fault(column, "A figure is needed here.");
        return null;
      }
      if (isUncomputed(cell)) {
        textOf(column);
        return null;
      }
      const value = typeof cell === "number" ? cell : readNumber(textOf(column), layout.decimals);
      if (Number.isFinite(value)) return inOurs(value, layout.places.get(column)?.unit ?? null);
      fault(column, `${shown(cell)} is not a number with a decimal ${layout.decimals}.`);
      return null;
    },
    instant: instantOf,
    one: (column, what, rows) => {
      const text = textOf(column).trim();
      const found = rows.find(text);
      if (found !== null) return found;
      const near = text === "" ? null : rows.near(text);
      fault(
        column,
        text === ""
          ? `A ${what} is needed here.`
          : `There is no ${what} ${shown(text)}.${near === null ? "" : ` Is ${shown(near)} meant? Write it so.`}`,
      );
      return null;
    },
    choice: (column, choices, before) => {
      const text = textOf(column).trim().toLowerCase();
      if (text === "" || text === before) return before;
      const found = choices.find((each) => each === text);
      if (found === undefined) fault(column, `${shown(text)} is none of: ${choices.join(", ")}.`);
      return found ?? before;
    },
  };
};
