/** The columns that rows of each kind have here, and the words by which other tables call them. */
import type { EntitySet } from "../../entity/entities.ts";
import type { ColumnUnit, RowKind } from "../../ledger/column-mapping.ts";

/** "clock": the time of day of an instant whose date stands in another column. */
export type Quantity = "text" | "instant" | "clock" | "mass" | "span" | "share";

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

const key = column("key", "Key", "text", ["id", "identifier", "code"]);
const status = column("status", "Status", "text", ["state"]);
const note = column("note", "Note", "text", ["notes", "remark", "remarks", "comment", "comments"]);

const namesOf = ({ id, name, symbol, fluid }: EntitySet["propellant"][number]): readonly string[] => [
  ...new Set([id, name, symbol, ...(fluid === null ? [] : [fluid])].map((each) => each.toLowerCase())),
];

const each = (names: readonly string[], forms: readonly string[]): readonly string[] =>
  names.flatMap((name) => forms.map((form) => form.replace("X", name)));

const flightColumns = (entities: EntitySet): readonly OurColumn[] => [
  column("name", "Name", "text", ["flight", "flight name", "flight number", "flight no", "mission"], {
    isNeeded: true,
  }),
  column("craft", "Tanker", "text", ["craft", "tanker serial", "vehicle", "hull", "serial"]),
  column("from", "From", "text", ["origin", "source", "start place", "launch site", "departs from"]),
  column("to", "To", "text", ["depot", "destination", "arrives at", "target"]),
  column("departs", "Departs", "instant", [
    "departure",
    "departure date",
    "departure time",
    "depart",
    "departs on",
    "leaves",
    "launch",
    "launch date",
    "launch time",
    "etd",
    "start",
  ]),
  column("arrives", "Arrives", "instant", [
    "arrival",
    "arrival date",
    "arrival time",
    "arrive",
    "arrives on",
    "docking",
    "docking date",
    "berthing",
    "eta",
  ]),
  column("berth", "Time at the port", "span", ["berth time", "port time", "port stay", "stay"]),
  ...entities.propellant.map((row) =>
    column(
      `load.${row.id}`,
      `${row.name} loaded`,
      "mass",
      each(namesOf(row), ["X", "X load", "X loaded", "X mass", "load X", "loaded X"]),
      {
        heading: row.id,
      },
    ),
  ),
  column("overflow", "Overflow", "text", ["on overflow"]),
  status,
  key,
  note,
];

const sortieColumns = (entities: EntitySet): readonly OurColumn[] => [
  column("name", "Name", "text", ["sortie", "sortie name", "mission"], { isNeeded: true }),
  column("campaign", "Campaign", "text", []),
  column("lander", "Lander", "text", ["craft", "vehicle", "lander serial", "serial"]),
  column("depot", "Depot", "text", ["from", "from depot"]),
  column("loads", "Loads and departs", "instant", [
    "loading",
    "load date",
    "loading date",
    "departs",
    "departure",
    "departure date",
    "start",
    "start date",
  ]),
  column("returns", "Returns", "instant", ["return", "return date", "back", "end", "end date"]),
  ...entities.propellant.flatMap((row) => [
    column(
      `load.${row.id}`,
      `${row.name} loaded`,
      "mass",
      each(namesOf(row), ["X", "X load", "X loaded", "load X", "loaded X"]),
      {
        heading: `${row.id} load`,
      },
    ),
    column(
      `return.${row.id}`,
      `${row.name} on return`,
      "mass",
      each(namesOf(row), ["X return", "X returned", "X home", "X left"]),
      {
        heading: `${row.id} return`,
      },
    ),
  ]),
  status,
  key,
  note,
];

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
  note,
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
