/** Flights, sorties and readings as a table that {@link readRows} takes back without a change: CSV here, a workbook in main. */
import { type CsvForm, csvText } from "../../format/csv-form.ts";
import { guarded } from "../../format/neutralise.ts";
import type { EntitySet } from "../../entity/entities.ts";
import { byId } from "../../entity/entity-index.ts";
import type { Flight } from "../../entity/flight.ts";
import type { Sortie } from "../../entity/sortie.ts";
import { type Field, type FieldTable, type OwnOf, fieldsOf } from "../../fields/field.ts";
import { flightFields } from "../../fields/flight-fields.ts";
import { sortieFields } from "../../fields/sortie-fields.ts";
import type { Reading } from "../../ledger/journal.ts";
import type { RowKind } from "../../ledger/column-mapping.ts";
import { exportedColumns, exportedHeading, type OurColumn } from "./our-columns.ts";

/** An instant is a Date, in UTC. */
export type RowCell = string | number | Date | null;
export interface RowsTable {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly RowCell[])[];
}

interface Named {
  readonly id: string;
  readonly name: string;
}

/** What a person calls a thing, where no other thing of the list is called so; else its id. */
const handlesOf = (rows: readonly Named[]): ReadonlyMap<string, string> => {
  const uses = new Map<string, number>();
  for (const { id, name } of rows)
    for (const word of new Set([id.toLowerCase(), name.trim().toLowerCase()]))
      uses.set(word, (uses.get(word) ?? 0) + 1);
  const isPlain = (name: string): boolean => name.trim() === name && uses.get(name.toLowerCase()) === 1;
  return new Map(rows.map(({ id, name }) => [id, isPlain(name) ? name : id]));
};

/** How each thing that rows name is called in the file. */
const handlesIn = (entities: EntitySet) => ({
  craft: handlesOf(entities.craft),
  places: handlesOf([...entities.source, ...entities.depot]),
  depot: handlesOf(entities.depot),
  campaign: handlesOf(entities.campaign),
});
type Handles = ReturnType<typeof handlesIn>;

type CellOf = (column: OurColumn) => RowCell;

/** A cell of a column that is not one field's: of a list, or of a union. */
type OwnCell = (column: string) => RowCell;

const plainCell = ({ value: form }: Field<never>, value: unknown, handles: Handles): RowCell => {
  if (value === null) return null;
  if (form.kind === "instant") return new Date(value as number);
  return form.kind === "named" ? (handles[form.of].get(value as string) ?? (value as string)) : (value as RowCell);
};

/** The cells of a row: those of lists and unions by the column's id, as `own` has them. */
const cellsBy = <E extends object, T extends FieldTable<E>>(
  table: T & FieldTable<E>,
  row: E,
  handles: Handles,
  own: Readonly<Record<OwnOf<T>, OwnCell>>,
): CellOf => {
  const lists = own as Readonly<Record<string, OwnCell>>;
  const plain = new Map<string, RowCell>();
  for (const [property, field] of fieldsOf<E>(table))
    if (field.rows !== null) {
      const cell = lists[property];
      const { id } = field.rows;
      plain.set(id, cell === undefined ? plainCell(field as Field<never>, row[property], handles) : cell(id));
    }
  const others = Object.values(lists);
  return ({ id }) => {
    const found = plain.get(id);
    if (found !== undefined) return found;
    for (const cell of others) {
      const inList = cell(id);
      if (inList !== null) return inList;
    }
    return null;
  };
};

const flightCells = (flight: Flight, entities: EntitySet, handles: Handles): CellOf => {
  const { origin, loads } = flight;
  const from = origin.kind === "source" ? origin.sourceId : origin.depotId;
  const craft = byId(entities.craft).get(flight.craftId);
  const carried = byId(entities.craftClass).get(craft?.classId ?? "")?.propellants ?? [];
  return cellsBy<Flight, typeof flightFields>(flightFields, flight, handles, {
    origin: (id) => (id === "from" ? (handles.places.get(from) ?? from) : null),
    loads: (id) => {
      if (!id.startsWith("load.")) return null;
      const propellantId = id.slice("load.".length);
      const load = loads.find((line) => line.propellantId === propellantId);
      // An empty cell would mean the usual load of its class.
      return load?.loadedKg ?? (carried.some((line) => line.propellantId === propellantId) ? 0 : null);
    },
  });
};

const sortieCells = (sortie: Sortie, handles: Handles): CellOf => {
  const lines = sortie.demand.kind === "stated" ? sortie.demand.lines : [];
  return cellsBy<Sortie, typeof sortieFields>(sortieFields, sortie, handles, {
    demand: (id) => {
      const [part, propellantId] = id.split(/\.(.*)/s);
      const line = lines.find((each) => each.propellantId === propellantId);
      return (part === "load" ? line?.loadKg : line?.returnKg) ?? null;
    },
  });
};

const readingCells = (reading: Reading, entities: EntitySet): CellOf => {
  const tank = byId(entities.tank).get(reading.tankId);
  const cells: Readonly<Record<string, RowCell>> = {
    depot: tank?.ownerKind === "depot" ? tank.ownerId : null,
    tank: reading.tankId,
    at: new Date(reading.at),
    mass: reading.massKg,
    sigma: reading.sigmaKg,
    note: reading.note,
  };
  return ({ id }) => cells[id] ?? null;
};

/**
 * The rows of a plan case (`entities` without other cases), or the readings in force. Things are named as people call them,
 * by their ids where two are called alike; tanks by their ids always.
 */
export const rowsTable = (kind: RowKind, entities: EntitySet, readings: readonly Reading[]): RowsTable => {
  const columns = exportedColumns(kind, entities).filter(({ id }) => id !== "share");
  const handles = handlesIn(entities);
  const inOrder = <T>(rows: readonly T[], at: (row: T) => number): readonly T[] =>
    rows.toSorted((a, b) => at(a) - at(b));
  const cellsOf: readonly CellOf[] =
    kind === "flights"
      ? inOrder(entities.flight, ({ arriveAt }) => arriveAt).map((flight) => flightCells(flight, entities, handles))
      : kind === "sorties"
        ? inOrder(entities.sortie, ({ loadAt }) => loadAt).map((sortie) => sortieCells(sortie, handles))
        : inOrder(
            readings.filter(({ isWithdrawn }) => !isWithdrawn),
            ({ at }) => at,
          ).map((reading) => readingCells(reading, entities));
  return { headings: columns.map(exportedHeading), rows: cellsOf.map((cellOf) => columns.map(cellOf)) };
};

/** Text that a spreadsheet would run as a formula is made harmless; an import takes it back as it was. */
export const rowsToCsv = ({ headings, rows }: RowsTable, form: CsvForm): string =>
  csvText([headings, ...rows.map((row) => row.map((cell) => (typeof cell === "string" ? guarded(cell) : cell)))], form);
