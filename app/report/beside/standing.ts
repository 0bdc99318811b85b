/** What a kept issue says of verdict, sorties and flights, read back from its tables: nothing of it is computed again. */
import type { FinishedReport } from "../finished.ts";
import type { Block, Cell, Column, Table } from "../model.ts";

export interface StandingLine {
  readonly propellant: string;
  readonly availableKg: number;
  readonly requiredKg: number;
  readonly marginKg: number;
  /** "supplied", "thin", "short" … of this propellant. */
  readonly status: string;
}

export interface StandingSortie {
  /** The same in every issue. */
  readonly key: string;
  readonly name: string;
  readonly status: string;
  /** When it was to load; null: the issue has no supply check. */
  readonly loadAt: number | null;
  readonly lines: readonly StandingLine[];
}

export interface StandingFlight {
  readonly name: string;
  readonly departAt: number | null;
  readonly arriveAt: number | null;
  /** The latest departure; null: none before the end of the forecast. */
  readonly latestAt: number | null;
}

export interface Standing {
  readonly verdict: Extract<Block, { readonly kind: "verdict" }> | null;
  readonly sorties: readonly StandingSortie[];
  /** null: the issue has no table of its flights. */
  readonly flights: readonly StandingFlight[] | null;
  readonly hasSupply: boolean;
}

const blocksOf = ({ report }: FinishedReport): readonly Block[] => report.sections.flatMap(({ blocks }) => blocks);

const tableOf = (finished: FinishedReport, id: string): Table | null =>
  blocksOf(finished).find((block): block is Table => block.kind === "table" && block.id === id) ?? null;

/** Where the columns of these titles stand (a unit given: of this unit); null: one of them is not there. */
const placesOf = <K extends string>(
  columns: readonly Column[],
  wanted: Readonly<Record<K, readonly [title: string, unit: string | null]>>,
): Readonly<Record<K, number>> | null => {
  const found = Object.entries<readonly [string, string | null]>(wanted).map(
    ([key, [title, unit]]) =>
      [key, columns.findIndex((column) => column.title === title && column.unit === unit)] as const,
  );
  return found.some(([, index]) => index < 0) ? null : (Object.fromEntries(found) as Record<K, number>);
};

const textIn = (cell: Cell | undefined): string => (cell?.kind === "text" ? cell.text : "");
const instantIn = (cell: Cell | undefined): number | null => (cell?.kind === "instant" ? cell.at : null);
const kgIn = (cell: Cell | undefined): number | null =>
  cell?.kind === "mass" || cell?.kind === "shortage" ? cell.kg : null;

interface Group {
  readonly name: string;
  readonly loadAt: number | null;
  readonly lines: StandingLine[];
}

/** Rows of one sortie stand together; sorties of one name stand in the order of the check. */
const supplyGroups = (finished: FinishedReport): readonly Group[] | null => {
  const table = tableOf(finished, "supply");
  const at =
    table &&
    placesOf(table.columns, {
      sortie: ["Sortie", null],
      loads: ["Loads", null],
      propellant: ["Propellant", null],
      available: ["Available", "mass"],
      required: ["Required", "mass"],
      margin: ["Margin", "mass"],
      status: ["Status", null],
    });
  if (table === null || at === null) return null;
  const groups: Group[] = [];
  for (const row of table.rows) {
    const [name, loadAt] = [textIn(row[at.sortie]), instantIn(row[at.loads])];
    const last = groups.at(-1);
    const propellant = textIn(row[at.propellant]);
    const isNext =
      last?.name !== name || last.loadAt !== loadAt || last.lines.some((line) => line.propellant === propellant);
    const group = isNext || last === undefined ? { name, loadAt, lines: [] } : last;
    if (group !== last) groups.push(group);
    const [availableKg, requiredKg, marginKg] = [kgIn(row[at.available]), kgIn(row[at.required]), kgIn(row[at.margin])];
    if (availableKg !== null && requiredKg !== null && marginKg !== null)
      group.lines.push({ propellant, availableKg, requiredKg, marginKg, status: textIn(row[at.status]) });
  }
  return groups;
};

const flightsOf = (finished: FinishedReport): readonly StandingFlight[] | null => {
  const table = tableOf(finished, "flights");
  const at =
    table &&
    placesOf(table.columns, {
      flight: ["Flight", null],
      departs: ["Departs", null],
      arrives: ["Arrives", null],
      latest: ["Latest departure", null],
    });
  if (table === null || at === null) return null;
  return table.rows.map((row) => ({
    name: textIn(row[at.flight]),
    departAt: instantIn(row[at.departs]),
    arriveAt: instantIn(row[at.arrives]),
    latestAt: instantIn(row[at.latest]),
  }));
};

export const standingOf = (finished: FinishedReport): Standing => {
  const groups = supplyGroups(finished);
  const waiting = Map.groupBy(groups ?? [], ({ name }) => name);
  return {
    verdict:
      blocksOf(finished).find((block): block is Extract<Block, { kind: "verdict" }> => block.kind === "verdict") ??
      null,
    hasSupply: groups !== null,
    sorties: finished.sorties.map(({ key, name, status }) => {
      const group = waiting.get(name)?.shift();
      return { key, name, status, loadAt: group?.loadAt ?? null, lines: group?.lines ?? [] };
    }),
    flights: flightsOf(finished),
  };
};
