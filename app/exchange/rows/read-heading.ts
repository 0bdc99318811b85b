/** What a heading says: its words, and the unit or time zone that stands with them. */
import { missingCase } from "../../ground/missing-case.ts";
import type { ColumnUnit, RowKind } from "../../ledger/column-mapping.ts";
import type { OurColumn } from "./our-columns.ts";
import { unitsOf } from "./our-columns.ts";

const massAndSpanUnits: Readonly<Record<string, ColumnUnit>> = {
  kg: "kg",
  kilogram: "kg",
  kilograms: "kg",
  t: "t",
  tonne: "t",
  tonnes: "t",
  lb: "lb",
  lbs: "lb",
  lbm: "lb",
  pound: "lb",
  pounds: "lb",
  d: "days",
  day: "days",
  days: "days",
  h: "hours",
  hour: "hours",
  hours: "hours",
};
const percentWords = new Set(["%", "percent", "per cent", "pct"]);
const utcWords = new Set(["utc", "z", "gmt", "ut", "zulu"]);

export interface HeadingWords {
  /** Lower case, plain letters, one space between words, without the unit. */
  readonly words: string;
  /** The unit as written, in lower case; null: none. */
  readonly unit: string | null;
}

const plain = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}%]+/gu, " ")
    .trim();

const isUnit = (word: string): boolean =>
  massAndSpanUnits[word] !== undefined || percentWords.has(word) || utcWords.has(word);

/** "H2 [t]" → h2, t; "Arrival (UTC)" → arrival, utc; "mass, kg" → mass, kg; "hydrogen kg" → hydrogen, kg. */
export const headingWords = (heading: string): HeadingWords => {
  const bracketed = /^(.*?)[\s_]*[[({]([^\])}]*)[\])}]\s*$/.exec(heading.trim());
  if (bracketed !== null) return { words: plain(bracketed[1] ?? ""), unit: plain(bracketed[2] ?? "") };
  const parts = plain(heading).split(" ");
  const last = parts.at(-1) ?? "";
  return isUnit(last) ? { words: parts.slice(0, -1).join(" "), unit: last } : { words: parts.join(" "), unit: null };
};

export interface HeadingMeaning {
  readonly to: string;
  /** null: it needs none, or the heading does not say. */
  readonly unit: ColumnUnit | null;
  /** The unit that stands there and is none that is known here; null: none such. */
  readonly strangeUnit: string | null;
}

const unitFor = (
  column: OurColumn,
  unit: string | null,
): { readonly unit: ColumnUnit | null; readonly fits: boolean } => {
  if (unit === null || unit === "") return { unit: null, fits: true };
  const known = massAndSpanUnits[unit];
  switch (column.quantity) {
    case "mass":
    case "span":
      return known !== undefined && unitsOf(column.quantity).includes(known)
        ? { unit: known, fits: true }
        : { unit: null, fits: false };
    case "instant":
    case "clock":
      return { unit: null, fits: utcWords.has(unit) };
    case "share":
      return { unit: null, fits: percentWords.has(unit) };
    case "text":
    case "number":
      return { unit: null, fits: false };
    default:
      return missingCase(column.quantity);
  }
};

/** The unit that a heading states for a column of ours; null: none, or one that the column has not. */
export const unitInHeading = (heading: string, column: OurColumn): ColumnUnit | null =>
  unitFor(column, headingWords(heading).unit).unit;

/**
 * What a heading means among our columns; null: nothing that is known here. A unit decides between columns of one name
 * ("level [%]", "level [kg]").
 */
export const readHeading = (heading: string, columns: readonly OurColumn[]): HeadingMeaning | null => {
  const { words, unit } = headingWords(heading);
  const whole = plain(heading);
  const named = columns.filter(
    ({ synonyms }) => synonyms.includes(words) || (unit !== null && synonyms.includes(whole)),
  );
  // A heading of a unit alone is a mass or a share; without either it is nothing.
  const meant = words === "" && unit === null ? [] : named;
  const isShare = unit !== null && percentWords.has(unit);
  const fitting = meant.filter((column) => unitFor(column, unit).fits && (column.quantity === "share") === isShare);
  const [found] = fitting.length > 0 ? fitting : meant.filter(({ quantity }) => quantity !== "share" || isShare);
  if (found === undefined) return null;
  const { unit: known, fits } = unitFor(found, unit);
  return { to: found.id, unit: known, strangeUnit: fits ? null : unit };
};

/** The kind of rows of which the headings name the most columns, needed ones twice over. */
export const likelyKind = (
  headings: readonly string[],
  columnsOf: (kind: RowKind) => readonly OurColumn[],
): RowKind => {
  const score = (kind: RowKind): number => {
    const columns = columnsOf(kind);
    const known = new Set(headings.flatMap((heading) => readHeading(heading, columns)?.to ?? []));
    return columns.reduce((sum, { id, isNeeded }) => sum + (known.has(id) ? (isNeeded ? 2 : 1) : 0), 0);
  };
  const kinds: readonly RowKind[] = ["flights", "sorties", "readings"];
  return kinds.reduce((best, each) => (score(each) > score(best) ? each : best));
};
