/** The same data as tables: flights, sorties, and each propellant's level at every event and reading. */
import { useMemo } from "react";
import type { Flight } from "../../../app/entity/flight.ts";
import type { MassUnit } from "../../format/mass.ts";
import { isFiltering } from "../../state/plan-filter.ts";
import { useManyRows } from "../../state/use-many.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import type { LevelSource } from "../../../app/picture/level/level-source.ts";
import { type TimelineModel, timelineModel } from "../model/timeline-model.ts";
import { areLoadsInTons, flightColumns, levelColumns, sortieColumns } from "./columns.tsx";
import { levelRows } from "./level-rows.ts";
import { type SortieRow, sortieRows } from "./sortie-rows.ts";
import { useFlightSheet, useSortieSheet } from "./use-plan-sheet.ts";

const NO_MODELS: readonly TimelineModel[] = [];

/** A flight between two depots is seen from both. */
const eachOnce = (flights: readonly Flight[]): readonly Flight[] => [
  ...new Map(flights.toSorted((a, b) => a.departAt - b.departAt).map((flight) => [flight.id, flight])).values(),
];

const flightId = (flight: Flight): string => flight.id;
const sortieId = (row: SortieRow): string => row.sortie.id;

export const TimelineTable = () => {
  const session = useSession();
  const current = useApp((state) => state.current);
  const compare = useApp((state) => state.compare);
  const depotId = useApp((state) => state.depotId);
  const areAllDepots = useApp((state) => state.areAllDepots);
  const filter = useApp((state) => state.filter);
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const models = useMemo(() => {
    if (current === null) return NO_MODELS;
    const ids = areAllDepots ? current.plan.depots.map(({ id }) => id) : [depotId];
    return ids.flatMap((id) => timelineModel(current, compare, id, null, null, filter) ?? []);
  }, [current, compare, depotId, areAllDepots, filter]);
  const model = models[0] ?? null;
  const flights = useMemo(() => eachOnce(models.flatMap((each) => each.flights)), [models]);
  const sorties = useMemo(
    () => models.flatMap(sortieRows).toSorted((a, b) => a.sortie.loadAt - b.sortie.loadAt),
    [models],
  );
  const columns = useMemo(
    () =>
      model === null
        ? null
        : {
            flights: flightColumns(model.plan, flights, unit),
            sorties: sortieColumns(model.plan, unit),
          },
    [model, flights, unit],
  );
  const flightSheet = useFlightSheet(flights, areLoadsInTons(flights, unit));
  const sortieSheet = useSortieSheet(useMemo(() => sorties.map(({ sortie }) => sortie), [sorties]));
  const manyFlights = useManyRows("flight", flightId);
  const manySorties = useManyRows("sortie", sortieId);
  if (model === null || columns === null) return null;
  return (
    <div className="timeline-tables">
      <h2 className="unseen">The timeline as tables</h2>
      <DataTable
        caption="Flights"
        keep="timeline-flights"
        columns={columns.flights}
        rows={flights}
        rowId={(flight) => flight.id}
        selectedId={selection?.kind === "flight" ? selection.id : null}
        onSelect={(flight) => session.select({ kind: "flight", id: flight.id })}
        {...manyFlights}
        sheet={flightSheet}
        empty={isFiltering(filter) ? "No flights match." : "No flight goes to or from this depot."}
      />
      <DataTable
        caption="Sorties"
        keep="timeline-sorties"
        columns={columns.sorties}
        rows={sorties}
        rowId={(row) => row.sortie.id}
        selectedId={selection?.kind === "sortie" ? selection.id : null}
        onSelect={(row) => session.select({ kind: "sortie", id: row.sortie.id })}
        {...manySorties}
        sheet={sortieSheet}
        empty={isFiltering(filter) ? "No sorties match." : "No sortie leaves from this depot."}
      />
      {models.flatMap((each) =>
        each.levels.map((level) => (
          <LevelTable key={`${each.depot.id} ${level.propellant.id}`} model={each} level={level} unit={unit} />
        )),
      )}
    </div>
  );
};

interface LevelTableProps {
  readonly model: TimelineModel;
  readonly level: LevelSource;
  readonly unit: MassUnit;
}

const LevelTable = ({ model, level, unit }: LevelTableProps) => {
  const rows = useMemo(() => levelRows(model, level), [model, level]);
  const columns = useMemo(() => levelColumns(rows, unit), [rows, unit]);
  return (
    <DataTable
      caption={`${level.propellant.name} at ${model.depot.name}`}
      columns={columns}
      rows={rows}
      rowId={(row) => row.id}
      empty="Nothing is known of its level."
    />
  );
};
