/** The columns that rows of each kind have here, and the words by which other tables call them. */
import type { EntitySet } from "../../entity/entities.ts";
import type { Flight } from "../../entity/flight.ts";
import type { Sortie } from "../../entity/sortie.ts";
import { type Field, type FieldTable, type OwnOf, type RowsColumn, fieldsOf } from "../../fields/field.ts";
import { flightFields } from "../../fields/flight-fields.ts";
import { sortieFields } from "../../fields/sortie-fields.ts";
import type { ColumnUnit, RowKind } from "../../ledger/column-mapping.ts";

/** "clock": the time of day of an instant whose date stands in another column. */
export type Quantity = "text" | "instant" | "clock" | "mass" | "span" | "share" | "number";

export interface OurColumn {
  /** "arrives", "load.hydrogen" */
  readonly id: string;
  /** What a person is shown. */
  readonly name: string;
  /** The heading that an exported table gives it, without its unit. */
  readonly heading: string;
  readonly quantity: Quantity;
  /** Without it no row can be read. */
  readonly isNeeded: boolean;
  /** Headings that mean it, in lower case, plain letters, words parted by one space, without unit. */
  readonly synonyms: readonly string[];
}

/** Units in which a quantity may be stated; the first is the one that an exported table has. */
export const unitsOf = (quantity: Quantity): readonly ColumnUnit[] => {
  if (quantity === "mass") return ["kg", "t", "lb"];
  return quantity === "span" ? ["days", "hours"] : [];
};

/** The heading of an exported table: "hydrogen load kg". */
export const exportedHeading = ({ heading, quantity }: OurColumn): string => {
  if (quantity === "share") return `${heading} %`.trim();
  const [unit] = unitsOf(quantity);
  return unit === undefined ? heading : `${heading} ${unit}`.trim();
};

const column = (
  id: string,
  name: string,
  quantity: Quantity,
  synonyms: readonly string[],
  more: { readonly heading?: string; readonly isNeeded?: boolean } = {},
): OurColumn => ({
  id,
  name,
  heading: more.heading ?? id,
  quantity,
  isNeeded: more.isNeeded ?? false,
  synonyms: [...new Set([more.heading ?? id, name.toLowerCase(), ...synonyms])],
});

const quantityOf = ({ value }: Field<never>): Quantity => {
  if (value.kind === "instant") return "instant";
  if (value.kind !== "number") return "text";
  return value.unit === "" ? "number" : value.unit === "kg" ? "mass" : "span";
};

const columnOf = (field: Field<never>, { id, heading, name, synonyms, isNeeded = false }: RowsColumn): OurColumn =>
  column(id, name ?? field.label, quantityOf(field), synonyms, {
    heading: heading ?? id.replaceAll("-", " "),
    isNeeded,
  });

/** A column for each field, those of a list or a union as `own` has them. */
const columnsOf = <E extends object, T extends FieldTable<E>>(
  table: T & FieldTable<E>,
  own: Readonly<Record<OwnOf<T>, "one" | readonly OurColumn[]>>,
): readonly OurColumn[] =>
  fieldsOf<E>(table).flatMap(([property, field]) => {
    const lists: Readonly<Record<string, "one" | readonly OurColumn[]>> = own;
    const columns = lists[property] ?? "one";
    if (columns !== "one") return columns;
    return field.rows === null ? [] : [columnOf(field as Field<never>, field.rows)];
  });

const namesOf = ({ id, name, symbol, fluid }: EntitySet["propellant"][number]): readonly string[] => [
  ...new Set([id, name, symbol, ...(fluid === null ? [] : [fluid])].map((each) => each.toLowerCase())),
];

const each = (names: readonly string[], forms: readonly string[]): readonly string[] =>
  names.flatMap((name) => forms.map((form) => form.replace("X", name)));

const flightLoads = (entities: EntitySet): readonly OurColumn[] =>
  entities.propellant.map((row) =>
    column(
      `load.${row.id}`,
      `${row.name} loaded`,
      "mass",
      each(namesOf(row), ["X", "X load", "X loaded", "X mass", "load X", "loaded X"]),
      { heading: row.id },
    ),
  );

const sortieLoads = (entities: EntitySet): readonly OurColumn[] =>
  entities.propellant.flatMap((row) => [
    column(
      `load.${row.id}`,
      `${row.name} loaded`,
      "mass",
      each(namesOf(row), ["X", "X load", "X loaded", "load X", "loaded X"]),
      { heading: `${row.id} load` },
    ),
    column(
      `return.${row.id}`,
      `${row.name} on return`,
      "mass",
      each(namesOf(row), ["X return", "X returned", "X home", "X left"]),
      { heading: `${row.id} return` },
    ),
  ]);

const flightColumns = (entities: EntitySet): readonly OurColumn[] =>
  columnsOf<Flight, typeof flightFields>(flightFields, { origin: "one", loads: flightLoads(entities) });

const sortieColumns = (entities: EntitySet): readonly OurColumn[] =>
  columnsOf<Sortie, typeof sortieFields>(sortieFields, { demand: sortieLoads(entities) });

const readingColumns: readonly OurColumn[] = [
  column("depot", "Depot", "text", []),
  column("tank", "Tank", "text", ["tank name", "vessel"], { isNeeded: true }),
  column(
    "at",
    "Instant",
    "instant",
    ["time", "date", "timestamp", "time tag", "date time", "date and time", "measured at", "read at", "reading time"],
    { isNeeded: true },
  ),
  column("mass", "Mass", "mass", ["", "level", "reading", "gauge", "gauge reading", "contents"], { heading: "" }),
  column("share", "Share of the maximum fill", "share", ["", "fill", "filling", "fill level", "level", "share"], {
    heading: "",
  }),
  column(
    "sigma",
    "Standard uncertainty",
    "mass",
    ["uncertainty", "sigma", "σ", "1 sigma", "1σ", "1 σ", "standard deviation", "std", "mass uncertainty"],
    { isNeeded: true },
  ),
  column("note", "Note", "text", flightFields.note.rows.synonyms),
];

/** The id of the column with the time of day of an instant of ours. */
export const clockOf = (instantId: string): string => `${instantId}.time`;

/** No heading means it by its words alone: a column of times under the heading of an instant does. */
const clockColumn = ({ id, name, heading }: OurColumn): OurColumn => ({
  id: clockOf(id),
  name: `${name}: time of day`,
  heading: `${heading} time`,
  quantity: "clock",
  isNeeded: false,
  synonyms: [],
});

const withClocks = (columns: readonly OurColumn[]): readonly OurColumn[] =>
  columns.flatMap((each) => (each.quantity === "instant" ? [each, clockColumn(each)] : [each]));

/** What an exported table has: instants whole, in one column. */
export const exportedColumns = (kind: RowKind, entities: EntitySet): readonly OurColumn[] => {
  if (kind === "flights") return flightColumns(entities);
  return kind === "sorties" ? sortieColumns(entities) : readingColumns;
};

/** What a column of a foreign table can be: each instant also as a date and a time of day in two columns. */
export const ourColumns = (kind: RowKind, entities: EntitySet): readonly OurColumn[] =>
  withClocks(exportedColumns(kind, entities));
