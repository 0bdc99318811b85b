/** One CSV row as a flight of a plan case: a new one, or, by its key, a changed one. */
import type { Entity, EntitySet } from "../ledger/entities.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import type { CellReader } from "./csv-cell.ts";
import type { PropellantColumn } from "./csv-column.ts";
import { keyFrom } from "./csv-key.ts";

export interface RowContext {
  readonly plan: EntitySet;
  readonly planCaseId: string;
  readonly columns: readonly PropellantColumn[];
  readonly newId: () => string;
}

/** From a source or from a depot, by id or name. */
const readOrigin = (cells: CellReader, plan: EntitySet): Entity<"flight">["origin"] | null => {
  const value = cells.needed("from").toLowerCase();
  if (value === "") return null;
  const isCalled = (row: { readonly id: string; readonly name: string }) =>
    row.id === value || row.name.toLowerCase() === value;
  const sources = plan.source.filter(isCalled);
  const depots = plan.depot.filter(isCalled);
  if (sources.length + depots.length > 1)
    cells.fault("from", "more than one source or depot is called so: give the id");
  else if (sources[0] !== undefined) return { kind: "source", sourceId: sources[0].id };
  else if (depots[0] !== undefined) return { kind: "depot", depotId: depots[0].id };
  else cells.fault("from", "there is no source or depot of this name");
  return null;
};

const readLoads = (cells: CellReader, columns: readonly PropellantColumn[]) =>
  columns.flatMap(({ heading, propellantId }) => {
    const loadedKg = cells.number(heading, false);
    return loadedKg === null || loadedKg === 0 ? [] : [{ propellantId, loadedKg }];
  });

/** null: a fault was found. Empty cells are filled from the craft's class, or stay as they are in a known flight. */
export const readFlight = (cells: CellReader, context: RowContext): unknown => {
  const { plan, planCaseId, columns } = context;
  const name = cells.needed("name");
  const key = cells.text("key") || keyFrom(name);
  const known = plan.flight.find((row) => row.planCaseId === planCaseId && row.key === key);
  const craft = cells.named("craft", "craft", plan);
  const craftClass = plan.craftClass.find((row) => row.id === craft?.classId);
  const origin = readOrigin(cells, plan);
  const depot = cells.named("to", "depot", plan);
  const departAt = cells.instant("departs", true);
  const arriveAt = cells.instant("arrives", false);
  const berthDays = cells.number("berth days", false);
  const stated = readLoads(cells, columns);
  if (departAt === null || cells.faults.length > 0) return null;
  const usual = (craftClass?.propellants ?? []).map(({ propellantId, loadKg }) => ({ propellantId, loadedKg: loadKg }));
  return {
    id: known?.id ?? context.newId(),
    planCaseId,
    key,
    name,
    craftId: craft?.id,
    origin,
    depotId: depot?.id,
    departAt,
    arriveAt: arriveAt ?? departAt + Math.round((craftClass?.tripDays ?? 0) * DAY_MS),
    berthDays: berthDays ?? known?.berthDays ?? craftClass?.berthDays ?? 0,
    loads: columns.length > 0 ? stated : (known?.loads ?? usual.filter((load) => load.loadedKg > 0)),
    overflow: cells.text("overflow") || (known?.overflow ?? "keep aboard"),
    status: cells.text("status") || (known?.status ?? "planned"),
    note: cells.text("note") || (known?.note ?? ""),
  };
};
