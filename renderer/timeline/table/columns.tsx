/** The columns of the timeline's tables. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { flightFields } from "../../../app/fields/flight-fields.ts";
import { sortieFields } from "../../../app/fields/sortie-fields.ts";
import { type MassUnit, unitOf } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { massColumn } from "../../widgets/mass-column.ts";
import { StatusMark } from "../../widgets/status-mark.tsx";
import { berthEndAt } from "../model/timeline-model.ts";
import { supplyWords } from "../words/item-words.ts";
import type { CellSpec } from "./cell-spec.ts";
import { fieldColumns, instantColumn } from "./field-columns.ts";
import { flightCells, loadColumnId } from "./flight-cells.ts";
import { sortieCells } from "./sortie-cells.ts";
import type { LevelRow } from "./level-rows.ts";
import type { SortieRow } from "./sortie-rows.ts";

/** Whether loads are in t: one unit for all their columns, so that a block can be read across. */
export const areLoadsInTons = (flights: readonly Flight[], unit: MassUnit): boolean =>
  unitOf(Math.max(0, ...flights.flatMap(({ loads }) => loads.map(({ loadedKg }) => loadedKg))), unit) === "t";

const placeName = (plan: PlanSnapshot, { origin }: Flight): string =>
  origin.kind === "source"
    ? (plan.sources.find(({ id }) => id === origin.sourceId)?.name ?? "")
    : (plan.depots.find(({ id }) => id === origin.depotId)?.name ?? "");

/** Columns whose cells are written: each with how. */
const written = <R, E>(
  columns: readonly Column<R>[],
  cells: ReadonlyMap<string, CellSpec<E>>,
  rowOf: (row: R) => E,
): readonly Column<R>[] =>
  columns.map((column) => {
    const spec = cells.get(column.id);
    if (spec === undefined) return column;
    const { draft, fixed, choices } = spec;
    return {
      ...column,
      edit: {
        draft: (row) => draft(rowOf(row)),
        fixed: (row) => fixed(rowOf(row)),
        ...(choices === undefined ? {} : { choices }),
      },
    };
  });

/** What a planner looks for first; the other fields follow. */
const FLIGHT_FIRST = ["name", "status", "departAt", "arriveAt", "berthDays", "loads"] as const;
const SORTIE_FIRST = ["name", "status", "loadAt", "returnAt", "landerId"] as const;

export const flightColumns = (
  plan: PlanSnapshot,
  flights: readonly Flight[],
  unit: MassUnit,
): readonly Column<Flight>[] => {
  const isTons = areLoadsInTons(flights, unit);
  const columns = fieldColumns<Flight, Flight, typeof flightFields>(
    plan,
    flightFields,
    FLIGHT_FIRST,
    (flight) => flight,
    {
      origin: [{ id: "from", heading: flightFields.origin.label, value: (flight) => placeName(plan, flight) }],
      loads: plan.propellants.map(({ id, name }) =>
        massColumn(flights, isTons ? "t" : "kg", {
          id: loadColumnId(id),
          heading: name,
          massKg: (flight) => flight.loads.find(({ propellantId }) => propellantId === id)?.loadedKg ?? null,
        }),
      ),
    },
  ).flatMap((column) =>
    column.id === "berth" ? [column, instantColumn("leave", "Leaves the port", berthEndAt)] : [column],
  );
  return written(columns, flightCells(plan, isTons), (flight) => flight);
};

const supplyText = (plan: PlanSnapshot, { supply, sortie }: SortieRow, unit: MassUnit): string =>
  supply === undefined ? sortie.status : supplyWords(plan, supply, unit);

const supplyCell = (row: SortieRow, words: string) =>
  row.supply === undefined ? (
    words
  ) : (
    <span className="status-cell">
      <StatusMark status={row.supply.status} hasWord={false} />
      {words}
    </span>
  );

const supplyColumns = (plan: PlanSnapshot, unit: MassUnit): readonly Column<SortieRow>[] => [
  {
    id: "supply",
    heading: "Supply",
    value: (row) => supplyText(plan, row, unit),
    show: (row) => supplyCell(row, supplyText(plan, row, unit)),
  },
  { id: "outcome", heading: "In the forecast", value: (row) => row.supply?.outcome ?? "" },
];

export const sortieColumns = (plan: PlanSnapshot, unit: MassUnit): readonly Column<SortieRow>[] => {
  const fields = fieldColumns<SortieRow, Sortie, typeof sortieFields>(
    plan,
    sortieFields,
    SORTIE_FIRST,
    ({ sortie }) => sortie,
    { demand: [] },
  );
  const columns = fields.flatMap((column) =>
    column.id === "name" ? [column, ...supplyColumns(plan, unit)] : [column],
  );
  return written<SortieRow, Sortie>(columns, sortieCells(plan), ({ sortie }) => sortie);
};

export const levelColumns = (rows: readonly LevelRow[], unit: MassUnit): readonly Column<LevelRow>[] => {
  return [
    instantColumn("at", "Instant", (row) => row.at),
    { id: "what", heading: "What", value: (row) => row.what, isWide: true },
    massColumn(rows, unit, { id: "before", heading: "Before", massKg: (row) => row.beforeKg }),
    massColumn(rows, unit, { id: "after", heading: "After", massKg: (row) => row.afterKg }),
    {
      id: "share",
      heading: "Of maximum fill",
      unit: "%",
      isNumber: true,
      value: (row) => row.percent,
      text: (row) => (row.percent === null ? "" : formatNumber(row.percent, 1)),
    },
  ];
};
