/** The columns of the timeline's tables. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import { formatInstant, formatWithWeekday } from "../../format/instant.ts";
import { type MassUnit, formatMass } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { massColumn } from "../../widgets/mass-column.ts";
import { StatusMark } from "../../widgets/status-mark.tsx";
import { berthEndAt } from "../model/timeline-model.ts";
import { supplyWords } from "../words/item-words.ts";
import type { LevelRow } from "./level-rows.ts";
import type { SortieRow } from "./sortie-rows.ts";

const instant = <R,>(id: string, heading: string, at: (row: R) => number): Column<R> => ({
  id,
  heading,
  value: at,
  text: (row) => formatInstant(at(row)),
  title: (row) => formatWithWeekday(at(row)),
});

const loadWords = (plan: PlanSnapshot, flight: Flight, unit: MassUnit): string =>
  flight.loads
    .map((load) => {
      const symbol = plan.propellants.find((row) => row.id === load.propellantId)?.symbol ?? "";
      return `${symbol} ${formatMass(load.loadedKg, unit)}`;
    })
    .join(", ");

export const flightColumns = (plan: PlanSnapshot, unit: MassUnit): readonly Column<Flight>[] => [
  { id: "name", heading: "Flight", value: (flight) => flight.name },
  { id: "status", heading: "Status", value: (flight) => flight.status },
  instant("depart", "Departs", (flight) => flight.departAt),
  instant("arrive", "Arrives", (flight) => flight.arriveAt),
  instant("leave", "Leaves the port", berthEndAt),
  { id: "loads", heading: "Loaded", value: (flight) => loadWords(plan, flight, unit), isWide: true },
];

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

export const sortieColumns = (plan: PlanSnapshot, unit: MassUnit): readonly Column<SortieRow>[] => [
  { id: "name", heading: "Sortie", value: (row) => row.sortie.name },
  {
    id: "supply",
    heading: "Supply",
    value: (row) => supplyText(plan, row, unit),
    show: (row) => supplyCell(row, supplyText(plan, row, unit)),
  },
  { id: "outcome", heading: "In the forecast", value: (row) => row.supply?.outcome ?? "" },
  instant("load", "Loads", (row) => row.sortie.loadAt),
  instant("return", "Returns", (row) => row.sortie.returnAt),
  { id: "lander", heading: "Lander", value: (row) => row.lander, isWide: true },
];

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
