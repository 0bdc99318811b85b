/** Flights, sorties and readings as a table that {@link readRows} takes back without a change: CSV here, a workbook in main. */
import { type CsvForm, csvText } from "../../format/csv-form.ts";
import { guarded } from "../../format/neutralise.ts";
import type { Entity, EntitySet } from "../../entity/entities.ts";
import { byId } from "../../entity/entity-index.ts";
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

const flightCells = (flight: Entity<"flight">, entities: EntitySet, handles: Handles): CellOf => {
  const from = flight.origin.kind === "source" ? flight.origin.sourceId : flight.origin.depotId;
  const craft = byId(entities.craft).get(flight.craftId);
  const carried = byId(entities.craftClass).get(craft?.classId ?? "")?.propellants ?? [];
  const cells: Readonly<Record<string, RowCell>> = {
    key: flight.key,
    name: flight.name,
    craft: handles.craft.get(flight.craftId) ?? flight.craftId,
    from: handles.places.get(from) ?? from,
    to: handles.depot.get(flight.depotId) ?? flight.depotId,
    departs: new Date(flight.departAt),
    arrives: new Date(flight.arriveAt),
    berth: flight.berthDays,
    overflow: flight.overflow,
    status: flight.status,
    note: flight.note,
  };
  return ({ id }) => {
    if (!id.startsWith("load.")) return cells[id] ?? null;
    const propellantId = id.slice("load.".length);
    const load = flight.loads.find((line) => line.propellantId === propellantId);
    // An empty cell would mean the usual load of its class.
    return load?.loadedKg ?? (carried.some((line) => line.propellantId === propellantId) ? 0 : null);
  };
};

const sortieCells = (sortie: Entity<"sortie">, handles: Handles): CellOf => {
  const cells: Readonly<Record<string, RowCell>> = {
    key: sortie.key,
    name: sortie.name,
    campaign: handles.campaign.get(sortie.campaignId) ?? sortie.campaignId,
    lander: handles.craft.get(sortie.landerId) ?? sortie.landerId,
    depot: handles.depot.get(sortie.depotId) ?? sortie.depotId,
    loads: new Date(sortie.loadAt),
    returns: new Date(sortie.returnAt),
    status: sortie.status,
    note: sortie.note,
  };
  const lines = sortie.demand.kind === "stated" ? sortie.demand.lines : [];
  return ({ id }) => {
    const [part, propellantId] = id.split(/\.(.*)/s);
    if (propellantId === undefined || propellantId === "") return cells[id] ?? null;
    const line = lines.find((each) => each.propellantId === propellantId);
    return (part === "load" ? line?.loadKg : line?.returnKg) ?? null;
  };
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
