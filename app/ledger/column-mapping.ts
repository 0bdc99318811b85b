/** How the columns of somebody else's table are read as ours: what the person chose, what a ledger remembers. */
import { z } from "zod";
import { dateForms } from "../format/read-date.ts";
import { decimalSigns } from "../format/read-number.ts";

export const rowKinds = ["flights", "sorties", "readings"] as const;
export type RowKind = (typeof rowKinds)[number];

/** Units in which a table may state a mass or a span. */
export const columnUnits = ["kg", "t", "lb", "days", "hours"] as const;
export type ColumnUnit = (typeof columnUnits)[number];

/** What parts the cells of a text table. */
export const separators = ["comma", "semicolon", "tab", "bar"] as const;
export type Separator = (typeof separators)[number];

export const MAX_COLUMNS = 300;

export const columnChoice = z.strictObject({
  /** The heading as the file has it. */
  heading: z.string().max(400),
  /** The id of our column; null: left out. */
  to: z.string().max(100).nullable(),
  /** null: as the heading says, or a column without unit. */
  unit: z.enum(columnUnits).nullable(),
});

/** What was decided; a column that is not named, or a null, is still to be guessed. */
export const columnMapping = z.strictObject({
  columns: z.array(columnChoice).max(MAX_COLUMNS),
  dates: z.enum(dateForms).nullable(),
  decimals: z.enum(decimalSigns).nullable(),
  separator: z.enum(separators).nullable(),
});

export type ColumnChoice = Readonly<z.infer<typeof columnChoice>>;
export type ColumnMapping = Readonly<z.infer<typeof columnMapping>>;

/** A mapping that a ledger keeps, for tables with the same headings in the same order. */
export interface RememberedMapping {
  readonly kind: RowKind;
  readonly headings: readonly string[];
  readonly mapping: ColumnMapping;
}

/** Nothing was decided. */
export const noMapping: ColumnMapping = { columns: [], dates: null, decimals: null, separator: null };
