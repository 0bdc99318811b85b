/** Decides what each column of a table means: as chosen, else as remembered, else as guessed; else it is asked. */
import { type ColumnMapping, type ColumnUnit, noMapping, type RememberedMapping } from "../../ledger/column-mapping.ts";
import { type DateForm } from "../../format/read-date.ts";
import { type DecimalSign } from "../../format/read-number.ts";
import { clockOfCell, readClock } from "../../format/read-clock.ts";
import { clockOf, type OurColumn, unitsOf } from "./our-columns.ts";
import { readHeading, unitInHeading } from "./read-heading.ts";
import { dateFormOf } from "../../format/read-date.ts";
import { decimalSignOf } from "../../format/read-number.ts";
import type { ColumnPreview, Decided, Decision } from "./rows-preview.ts";
import { isBlank, type SourceCell, type SourceTable } from "./source-table.ts";

const MAX_SAMPLES = 3;
/** So many rows are looked at for the form of dates and figures. */
const MAX_LOOKED_AT = 5000;

export interface ResolvedMapping {
  readonly columns: readonly ColumnPreview[];
  readonly dates: Decided<DateForm>;
  readonly decimals: Decided<DecimalSign>;
  readonly mapping: ColumnMapping;
  readonly questions: readonly string[];
}

interface Meaning {
  readonly to: string | null;
  readonly unit: ColumnUnit | null;
  readonly decision: Decision;
  readonly note: string | null;
}

/** A workbook's time of day is a date of 1899. */
const shownCell = (cell: SourceCell): string =>
  cell instanceof Date
    ? cell
        .toISOString()
        .replace(/:00\.000Z$/, "")
        .replace(clockOfCell(cell) === null ? "T" : /^.*T/, clockOfCell(cell) === null ? " " : "")
    : String(cell).slice(0, 60);

const samplesOf = (table: SourceTable, index: number): readonly string[] => {
  const samples: string[] = [];
  for (const { cells } of table.rows) {
    const cell = cells[index];
    if (cell === undefined || isBlank(cell)) continue;
    samples.push(shownCell(cell));
    if (samples.length === MAX_SAMPLES) break;
  }
  return samples;
};

const isClock = (cell: SourceCell): boolean => {
  if (typeof cell === "string") return readClock(cell) !== null;
  return (cell instanceof Date || typeof cell === "number") && clockOfCell(cell) !== null;
};

/** Whether a column holds times of day and nothing else. */
const areClocks = (table: SourceTable, index: number): boolean => {
  let found = false;
  for (const { cells } of table.rows.slice(0, MAX_LOOKED_AT)) {
    const cell = cells[index];
    if (cell === undefined || isBlank(cell)) continue;
    if (!isClock(cell)) return false;
    found = true;
  }
  return found;
};

const quoted = (text: string): string => `“${text.slice(0, 40)}”`;

/** A unit that the column needs and has not. */
const lacksUnit = (column: OurColumn | undefined, unit: ColumnUnit | null): boolean =>
  column !== undefined && unitsOf(column.quantity).length > 0 && unit === null;

const decided = (
  heading: string,
  given: ColumnMapping,
  decision: "chosen" | "remembered",
  columns: readonly OurColumn[],
): Meaning | null => {
  const choice = given.columns.find((each) => each.heading === heading);
  if (choice === undefined) return null;
  const column = columns.find(({ id }) => id === choice.to);
  // What was meant is no longer there: a propellant that was removed.
  if (choice.to !== null && column === undefined) return null;
  const unit = choice.unit ?? (column === undefined ? null : unitInHeading(heading, column));
  if (lacksUnit(column, unit))
    return { to: choice.to, unit: null, decision: "undecided", note: `In which unit is ${quoted(heading)}?` };
  return { to: choice.to, unit, decision, note: null };
};

/** `hasClocks`: it holds times of day alone, so under the heading of an instant they are its time. */
const guessed = (
  heading: string,
  isEmpty: boolean,
  hasClocks: () => boolean,
  columns: readonly OurColumn[],
): Meaning => {
  const meaning = readHeading(heading, columns);
  if (meaning === null)
    return isEmpty
      ? { to: null, unit: null, decision: "guessed", note: "It is empty." }
      : {
          to: null,
          unit: null,
          decision: "undecided",
          note: `${quoted(heading)} means nothing here: say what it is, or leave it out.`,
        };
  if (meaning.strangeUnit !== null)
    return {
      to: meaning.to,
      unit: null,
      decision: "undecided",
      note: `The unit or time zone “${meaning.strangeUnit}” of ${quoted(heading)} is not known here.`,
    };
  const column = columns.find(({ id }) => id === meaning.to);
  if (lacksUnit(column, meaning.unit))
    return { to: meaning.to, unit: null, decision: "undecided", note: `In which unit is ${quoted(heading)}?` };
  const to = column?.quantity === "instant" && hasClocks() ? clockOf(meaning.to) : meaning.to;
  return { to, unit: meaning.unit, decision: "guessed", note: null };
};

/** Two columns that mean the same are asked about, unless one of them alone was chosen or remembered. */
const withoutDuplicates = (headings: readonly string[], meanings: readonly Meaning[]): readonly Meaning[] => {
  const sure = new Set(
    meanings.flatMap(({ to, decision }) =>
      to !== null && (decision === "chosen" || decision === "remembered") ? [to] : [],
    ),
  );
  return meanings.map((meaning, index) => {
    const others = headings.filter((_heading, other) => other !== index && meanings[other]?.to === meaning.to);
    if (meaning.to === null || others.length === 0) return meaning;
    const isGuess = meaning.decision === "guessed" || meaning.decision === "undecided";
    if (
      !isGuess &&
      meanings.filter(({ to, decision }) => to === meaning.to && decision === meaning.decision).length === 1
    )
      return meaning;
    if (isGuess && sure.has(meaning.to))
      return {
        to: null,
        unit: null,
        decision: "undecided",
        note: `${quoted(headings[index] ?? "")} would mean the same as ${quoted(others[0] ?? "")}.`,
      };
    return {
      ...meaning,
      decision: "undecided",
      note: `${[headings[index] ?? "", ...others].map(quoted).join(" and ")} would mean the same.`,
    };
  });
};

function* textsOf(table: SourceTable, indexes: readonly number[]): Generator<string> {
  for (const { cells } of table.rows.slice(0, MAX_LOOKED_AT))
    for (const index of indexes) {
      const cell = cells[index];
      if (typeof cell === "string" && cell !== "") yield cell;
      else if (typeof cell === "number") yield String(cell);
    }
}

const settle = <T>(chosen: T | null, remembered: T | null, guess: T | null, isAsked: boolean): Decided<T> => {
  if (chosen !== null) return { value: chosen, decision: "chosen", isAsked };
  if (remembered !== null) return { value: remembered, decision: "remembered", isAsked };
  return { value: guess, decision: guess === null ? "undecided" : "guessed", isAsked };
};

const datesOf = (
  table: SourceTable,
  indexes: readonly number[],
  chosen: ColumnMapping,
  kept: ColumnMapping,
): Decided<DateForm> => {
  const guess = dateFormOf(textsOf(table, indexes));
  return settle(chosen.dates, kept.dates, guess, guess !== "year first");
};

const decimalsOf = (
  table: SourceTable,
  indexes: readonly number[],
  chosen: ColumnMapping,
  kept: ColumnMapping,
): Decided<DecimalSign> => {
  const strings = function* (): Generator<string> {
    for (const { cells } of table.rows.slice(0, MAX_LOOKED_AT))
      for (const index of indexes) {
        const cell = cells[index];
        if (typeof cell === "string") yield cell;
      }
  };
  const found = decimalSignOf(strings(), table.separator === "comma");
  const guess = found === "unclear" ? null : found === "either" ? "point" : found;
  return settle(
    chosen.decimals,
    kept.decimals,
    guess,
    found !== "either" && !(found === "point" && table.separator === "comma"),
  );
};

const sameHeadings = (one: readonly string[], other: readonly string[]): boolean =>
  one.length === other.length && one.every((heading, index) => heading === other[index]);

const missingOf = (meanings: readonly Meaning[], columns: readonly OurColumn[]): readonly string[] => {
  const given = new Set(meanings.map(({ to }) => to));
  const missing = columns.filter(({ id, isNeeded }) => isNeeded && !given.has(id)).map(({ name }) => name);
  if (columns.some(({ id }) => id === "mass") && !given.has("mass") && !given.has("share")) missing.push("Mass");
  return missing;
};

/** Times of day without the column that says their dates. */
const datelessOf = (headings: readonly string[], meanings: readonly Meaning[], columns: readonly OurColumn[]) =>
  columns.flatMap(({ id, quantity, name }) => {
    const index = meanings.findIndex(({ to }) => quantity === "instant" && to === clockOf(id));
    return index < 0 || meanings.some(({ to }) => to === id)
      ? []
      : [`${quoted(headings[index] ?? "")} holds times of day: which column holds their dates (${name})?`];
  });

/** Of what is remembered, only what was kept for just these headings counts. */
export const resolveMapping = (
  table: SourceTable,
  columns: readonly OurColumn[],
  chosen: ColumnMapping,
  remembered: readonly RememberedMapping[],
): ResolvedMapping => {
  const kept = remembered.find(({ headings }) => sameHeadings(headings, table.headings))?.mapping ?? noMapping;
  const samples = table.headings.map((_heading, index) => samplesOf(table, index));
  const meanings = withoutDuplicates(
    table.headings,
    table.headings.map(
      (heading, index) =>
        decided(heading, chosen, "chosen", columns) ??
        decided(heading, kept, "remembered", columns) ??
        guessed(heading, samples[index]?.length === 0, () => areClocks(table, index), columns),
    ),
  );
  const indexesOf = (quantities: readonly OurColumn["quantity"][]): readonly number[] =>
    meanings.flatMap(({ to }, index) => {
      const column = columns.find(({ id }) => id === to);
      return column !== undefined && quantities.includes(column.quantity) ? [index] : [];
    });
  const dates = datesOf(table, indexesOf(["instant"]), chosen, kept);
  const decimals = decimalsOf(table, indexesOf(["mass", "span", "share", "number"]), chosen, kept);
  const missing = missingOf(meanings, columns);
  return {
    columns: meanings.map((meaning, index) => ({
      ...meaning,
      heading: table.headings[index] ?? "",
      samples: samples[index] ?? [],
    })),
    dates,
    decimals,
    mapping: {
      columns: meanings.flatMap(({ to, unit, decision }, index) =>
        decision === "undecided" ? [] : [{ heading: table.headings[index] ?? "", to, unit }],
      ),
      dates: dates.value,
      decimals: decimals.value,
      separator: table.separator,
    },
    questions: [
      ...new Set(meanings.flatMap(({ decision, note }) => (decision === "undecided" && note !== null ? [note] : []))),
      ...datelessOf(table.headings, meanings, columns),
      ...(missing.length > 0 ? [`No column says: ${missing.join(", ")}.`] : []),
      ...(dates.value === null
        ? ["Does the day or the month stand first in the dates? 3/4/2031 can be 3 April or March the 4th."]
        : []),
      ...(decimals.value === null
        ? ["Is the decimal sign a point or a comma? 1,234 and 1.234 can each be 1234, or 1.234."]
        : []),
    ],
  };
};
