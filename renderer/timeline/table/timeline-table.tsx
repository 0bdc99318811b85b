/** The same data as tables: flights, sorties, and each propellant's level at every event and reading. */
import { useMemo } from "react";
import type { Flight } from "../../../app/entity/flight.ts";
import type { MassUnit } from "../../format/mass.ts";
import { useManyRows } from "../../state/use-many.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import type { LevelSource } from "../model/level-source.ts";
import { type TimelineModel, timelineModel } from "../model/timeline-model.ts";
import { flightColumns, levelColumns, sortieColumns } from "./columns.tsx";
import { levelRows } from "./level-rows.ts";
import { type SortieRow, sortieRows } from "./sortie-rows.ts";

const flightId = (flight: Flight): string => flight.id;
const sortieId = (row: SortieRow): string => row.sortie.id;

export const TimelineTable = () => {
  const session = useSession();
  const current = useApp((state) => state.current);
  const compare = useApp((state) => state.compare);
  const depotId = useApp((state) => state.depotId);
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const model = useMemo(
    () => (current === null ? null : timelineModel(current, compare, depotId)),
    [current, compare, depotId],
  );
  const columns = useMemo(
    () =>
      model === null
        ? null
        : {
            flights: flightColumns(model.plan, unit),
            sorties: sortieColumns(model.plan, unit),
          },
    [model, unit],
  );
  const manyFlights = useManyRows("flight", flightId);
  const manySorties = useManyRows("sortie", sortieId);
  if (model === null || columns === null) return null;
  return (
    <div className="timeline-tables">
      <h2 className="unseen">The timeline as tables</h2>
      <DataTable
        caption="Flights"
        columns={columns.flights}
        rows={model.flights}
        rowId={(flight) => flight.id}
        selectedId={selection?.kind === "flight" ? selection.id : null}
        onSelect={(flight) => session.select({ kind: "flight", id: flight.id })}
        {...manyFlights}
        empty="No flight goes to or from this depot."
      />
      <DataTable
        caption="Sorties"
        columns={columns.sorties}
        rows={sortieRows(model)}
        rowId={(row) => row.sortie.id}
        selectedId={selection?.kind === "sortie" ? selection.id : null}
        onSelect={(row) => session.select({ kind: "sortie", id: row.sortie.id })}
        {...manySorties}
        empty="No sortie leaves from this depot."
      />
      {model.levels.map((level) => (
        <LevelTable key={level.propellant.id} model={model} level={level} unit={unit} />
      ))}
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
