/** The headings that each kind of CSV file may have. */
import type { EntitySet } from "../ledger/entities.ts";
import type { CsvFault, CsvPreview } from "./csv-preview.ts";
import type { CsvTable } from "./csv-table.ts";

interface Headings {
  readonly needed: readonly string[];
  readonly optional: readonly string[];
  /** A column for each propellant, with its symbol or id before this: "LH2 kg". */
  readonly perPropellant: readonly string[];
}

export const csvHeadings: { readonly [K in CsvPreview["kind"]]: Headings } = {
  flights: {
    needed: ["name", "craft", "from", "to", "departs"],
    optional: ["key", "arrives", "berth days", "overflow", "status", "note"],
    perPropellant: ["kg"],
  },
  sorties: {
    needed: ["name", "campaign", "lander", "depot", "loads"],
    optional: ["key", "returns", "status", "note"],
    perPropellant: ["load kg", "return kg"],
  },
  readings: { needed: ["tank", "at", "mass kg", "sigma kg"], optional: ["note"], perPropellant: [] },
};

/** A propellant's own column. */
export interface PropellantColumn {
  readonly heading: string;
  readonly propellantId: string;
  /** What stands after the propellant's name: "load kg". */
  readonly ending: string;
}

/** The propellant columns of a table. */
export const propellantColumns = (
  kind: CsvPreview["kind"],
  table: CsvTable,
  plan: EntitySet,
): readonly PropellantColumn[] =>
  table.headings.flatMap((text) => {
    const heading = text.trim().toLowerCase().replaceAll(/\s+/g, " ");
    return csvHeadings[kind].perPropellant.flatMap((ending) =>
      plan.propellant
        .filter(({ id, symbol }) => heading === `${id} ${ending}` || heading === `${symbol.toLowerCase()} ${ending}`)
        .map(({ id }) => ({ heading, propellantId: id, ending })),
    );
  });

/** Headings that are missing, and those that mean nothing here: a misspelt one must not be passed over. */
export const headingFaults = (kind: CsvPreview["kind"], table: CsvTable, plan: EntitySet): readonly CsvFault[] => {
  const { needed, optional, perPropellant } = csvHeadings[kind];
  const present = table.headings.map((text) => text.trim().toLowerCase().replaceAll(/\s+/g, " "));
  const known = new Set([...needed, ...optional, ...propellantColumns(kind, table, plan).map((c) => c.heading)]);
  const examples = perPropellant.map((ending) => `“${plan.propellant[0]?.symbol ?? "LH2"} ${ending}”`);
  const may = [...needed, ...optional, ...examples].join(", ");
  return [
    ...needed
      .filter((heading) => !present.includes(heading))
      .map((heading) => ({ line: 1, column: heading, reason: "this column is needed and missing" })),
    ...table.headings
      .filter((_text, i) => present[i] !== "" && !known.has(present[i] ?? ""))
      .map((heading) => ({
        line: 1,
        column: heading,
        reason: `this heading means nothing here; there may be: ${may}`,
      })),
  ];
};
