/** The same data as tables: flights, sorties, and each propellant's level at every event and reading. */
import { useMemo } from "react";
import type { Flight } from "../../../app/ledger/entity/flight.ts";
import { formatInstant, formatWithWeekday } from "../../format/instant.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import { StatusMark } from "../../widgets/status-mark.tsx";
import { berthEndAt, timelineModel } from "../model/timeline-model.ts";
import { supplyWords } from "../words/item-words.ts";
import { type LevelRow, levelRows } from "./level-rows.ts";
import { type SortieRow, sortieRows } from "./sortie-rows.ts";

const instant = <R,>(id: string, heading: string, at: (row: R) => number): Column<R> => ({
  id,
  heading,
  value: at,
  text: (row) => formatInstant(at(row)),
  title: (row) => formatWithWeekday(at(row)),
});

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
  if (model === null) return null;
  const { plan } = model;
  const loads = (flight: Flight): string =>
    flight.loads
      .map(
        (load) =>
          `${plan.propellants.find((row) => row.id === load.propellantId)?.name ?? ""} ${formatMass(load.loadedKg, unit)}`,
      )
      .join(", ");
  const flightColumns: readonly Column<Flight>[] = [
    { id: "name", heading: "Flight", value: (flight) => flight.name },
    { id: "status", heading: "Status", value: (flight) => flight.status },
    instant("depart", "Departs", (flight) => flight.departAt),
    instant("arrive", "Arrives", (flight) => flight.arriveAt),
    instant("leave", "Leaves the port", berthEndAt),
    { id: "loads", heading: "Loaded", value: loads, isWide: true },
  ];
  const sortieColumns: readonly Column<SortieRow>[] = [
    { id: "name", heading: "Sortie", value: (row) => row.sortie.name },
    {
      id: "supply",
      heading: "Supply",
      value: (row) => (row.supply === undefined ? row.sortie.status : supplyWords(plan, row.supply, unit)),
      show: (row) =>
        row.supply === undefined ? (
          row.sortie.status
        ) : (
          <>
            <StatusMark status={row.supply.status} hasWord={false} /> {supplyWords(plan, row.supply, unit)}
          </>
        ),
    },
    { id: "outcome", heading: "In the forecast", value: (row) => row.supply?.outcome ?? "" },
    instant("load", "Loads", (row) => row.sortie.loadAt),
    instant("return", "Returns", (row) => row.sortie.returnAt),
    { id: "lander", heading: "Lander", value: (row) => row.lander, isWide: true },
  ];
  const mass = (value: number | null): string => (value === null ? "" : formatMass(value, unit));
  const levelColumns: readonly Column<LevelRow>[] = [
    instant("at", "Instant", (row) => row.at),
    { id: "what", heading: "What", value: (row) => row.what, isWide: true },
    {
      id: "before",
      heading: "Before",
      isNumber: true,
      value: (row) => row.beforeKg,
      text: (row) => mass(row.beforeKg),
    },
    { id: "after", heading: "After", isNumber: true, value: (row) => row.afterKg, text: (row) => mass(row.afterKg) },
    {
      id: "share",
      heading: "Of maximum fill",
      unit: "%",
      isNumber: true,
      value: (row) => row.percent,
      text: (row) => (row.percent === null ? "" : formatNumber(row.percent, 1)),
    },
  ];
  return (
    <div className="timeline-tables">
      <DataTable
        caption="Flights"
        columns={flightColumns}
        rows={model.flights}
        rowId={(flight) => flight.id}
        selectedId={selection?.kind === "flight" ? selection.id : null}
        onSelect={(flight) => session.select({ kind: "flight", id: flight.id })}
        empty="No flight goes to or from this depot."
      />
      <DataTable
        caption="Sorties"
        columns={sortieColumns}
        rows={sortieRows(model)}
        rowId={(row) => row.sortie.id}
        selectedId={selection?.kind === "sortie" ? selection.id : null}
        onSelect={(row) => session.select({ kind: "sortie", id: row.sortie.id })}
        empty="No sortie leaves from this depot."
      />
      {model.levels.map((level) => (
        <DataTable
          key={level.propellant.id}
          caption={`${level.propellant.name} at ${model.depot.name}`}
          columns={levelColumns}
          rows={levelRows(model, level)}
          rowId={(row) => row.id}
          empty="Nothing is known of its level."
        />
      ))}
    </div>
  );
};
