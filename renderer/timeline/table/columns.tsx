/** The columns of the timeline's tables. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { formatInstant, formatWithWeekday } from "../../format/instant.ts";
import { type MassUnit, unitOf } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { massColumn } from "../../widgets/mass-column.ts";
import { StatusMark } from "../../widgets/status-mark.tsx";
import { berthEndAt } from "../model/timeline-model.ts";
import { supplyWords } from "../words/item-words.ts";
import type { CellSpec } from "./cell-spec.ts";
import { flightCells, loadColumnId } from "./flight-cells.ts";
import { sortieCells } from "./sortie-cells.ts";
import type { LevelRow } from "./level-rows.ts";
import type { SortieRow } from "./sortie-rows.ts";

const instant = <R,>(id: string, heading: string, at: (row: R) => number): Column<R> => ({
  id,
  heading,
  value: at,
  text: (row) => formatInstant(at(row)),
  title: (row) => formatWithWeekday(at(row)),
});

/** Whether loads are in t: one unit for all their columns, so that a block can be read across. */
export const areLoadsInTons = (flights: readonly Flight[], unit: MassUnit): boolean =>
  unitOf(Math.max(0, ...flights.flatMap(({ loads }) => loads.map(({ loadedKg }) => loadedKg))), unit) === "t";

const placeName = (plan: PlanSnapshot, { origin }: Flight): string =>
  origin.kind === "source"
    ? (plan.sources.find(({ id }) => id === origin.sourceId)?.name ?? "")
    : (plan.depots.find(({ id }) => id === origin.depotId)?.name ?? "");

const named = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
  rows.find((row) => row.id === id)?.name ?? "";

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

export const flightColumns = (
  plan: PlanSnapshot,
  flights: readonly Flight[],
  unit: MassUnit,
): readonly Column<Flight>[] => {
  const isTons = areLoadsInTons(flights, unit);
  const columns: readonly Column<Flight>[] = [
    { id: "name", heading: "Flight", value: (flight) => flight.name },
    { id: "status", heading: "Status", value: (flight) => flight.status },
    instant("depart", "Departs", (flight) => flight.departAt),
    instant("arrive", "Arrives", (flight) => flight.arriveAt),
    {
      id: "berth",
      heading: "At the port",
      unit: "days",
      isNumber: true,
      value: (flight) => flight.berthDays,
      text: (flight) => formatNumber(flight.berthDays, 1),
    },
    instant("leave", "Leaves the port", berthEndAt),
    ...plan.propellants.map(({ id, name }) =>
      massColumn(flights, isTons ? "t" : "kg", {
        id: loadColumnId(id),
        heading: name,
        massKg: (flight) => flight.loads.find(({ propellantId }) => propellantId === id)?.loadedKg ?? null,
      }),
    ),
    { id: "craft", heading: "Tanker", value: (flight) => named(plan.craft, flight.craftId) },
    { id: "from", heading: "From", value: (flight) => placeName(plan, flight) },
    { id: "to", heading: "To", value: (flight) => named(plan.depots, flight.depotId), isWide: true },
  ];
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

export const sortieColumns = (plan: PlanSnapshot, unit: MassUnit): readonly Column<SortieRow>[] =>
  written<SortieRow, Sortie>(
    [
      { id: "name", heading: "Sortie", value: (row) => row.sortie.name },
      {
        id: "supply",
        heading: "Supply",
        value: (row) => supplyText(plan, row, unit),
        show: (row) => supplyCell(row, supplyText(plan, row, unit)),
      },
      { id: "outcome", heading: "In the forecast", value: (row) => row.supply?.outcome ?? "" },
      { id: "status", heading: "Status", value: (row) => row.sortie.status },
      instant("load", "Loads", (row) => row.sortie.loadAt),
      instant("return", "Returns", (row) => row.sortie.returnAt),
      { id: "lander", heading: "Lander", value: (row) => row.lander },
      { id: "campaign", heading: "Campaign", value: (row) => named(plan.campaigns, row.sortie.campaignId) },
      { id: "depot", heading: "Depot", value: (row) => named(plan.depots, row.sortie.depotId), isWide: true },
    ],
    sortieCells(plan),
    (row) => row.sortie,
  );

export const levelColumns = (rows: readonly LevelRow[], unit: MassUnit): readonly Column<LevelRow>[] => {
  return [
    instant("at", "Instant", (row) => row.at),
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
