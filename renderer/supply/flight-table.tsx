/** One row a flight ahead: the latest departure that keeps every sortie's status. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Flight } from "../../app/entity/flight.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { SupplyAnswer } from "../../app/supply/answer.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";
import { useManyRows } from "../state/use-many.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { nameIn } from "../../app/words/named.ts";

interface FlightRow {
  readonly flight: Flight;
  /** null: it may slip to the horizon; undefined: not worked out. */
  readonly latestAt: number | null | undefined;
  /** How far all flights of its class still to depart may slip together, days; undefined: not worked out. */
  readonly jointDays: number | "any" | undefined;
  readonly sorties: string;
}

const rowsFor = (plan: PlanSnapshot, answer: SupplyAnswer | null): readonly FlightRow[] => {
  const classOf = new Map(plan.craft.map(({ id, classId }) => [id, classId]));
  return plan.flights
    .filter(({ status }) => status === "planned" || status === "firm")
    .toSorted((a, b) => a.departAt - b.departAt)
    .map((flight) => ({
      flight,
      latestAt: answer?.latestDeparture.find(({ flightId }) => flightId === flight.id)?.at,
      jointDays: answer?.jointSlack.find(({ classId }) => classId === classOf.get(flight.craftId))?.slackDays,
      sorties: (answer?.hinges ?? [])
        .filter(({ flightId }) => flightId === flight.id)
        .map(({ sortieId }) => nameIn(plan.sorties, sortieId))
        .join(", "),
    }));
};

const columns: readonly Column<FlightRow>[] = [
  { id: "name", heading: "Flight", value: ({ flight }) => flight.name },
  { id: "status", heading: "Status", value: ({ flight }) => flight.status },
  instantColumn("departs", "Departs", ({ flight }) => flight.departAt),
  {
    id: "latest",
    heading: "Latest departure",
    value: ({ latestAt }) => (latestAt === null ? Infinity : latestAt),
    text: ({ latestAt }) => {
      if (latestAt === undefined) return "…";
      return latestAt === null ? "no limit" : formatInstant(latestAt);
    },
  },
  {
    id: "spare",
    heading: "Can slip by at most",
    unit: "days",
    isNumber: true,
    value: ({ flight, latestAt }) => {
      if (latestAt === undefined) return null;
      return latestAt === null ? Infinity : (latestAt - flight.departAt) / DAY_MS;
    },
    text: ({ flight, latestAt }) => {
      if (latestAt === undefined) return "…";
      return latestAt === null ? "no limit" : formatNumber((latestAt - flight.departAt) / DAY_MS, 1);
    },
  },
  {
    id: "joint",
    heading: "All of its class",
    unit: "days",
    isNumber: true,
    value: ({ jointDays }) => (jointDays === undefined ? null : jointDays === "any" ? Infinity : jointDays),
    text: ({ jointDays }) => {
      if (jointDays === undefined) return "…";
      return jointDays === "any" ? "no limit" : formatNumber(jointDays, 1);
    },
  },
  { id: "sorties", heading: "Short if lost", isWide: true, value: ({ sorties }) => sorties },
];

const flightId = ({ flight }: FlightRow): string => flight.id;

export const FlightTable = ({ plan, answer }: { plan: PlanSnapshot; answer: SupplyAnswer | null }) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const many = useManyRows("flight", flightId);
  const rows = useMemo(() => rowsFor(plan, answer), [plan, answer]);
  return (
    <DataTable
      caption="Flights ahead"
      columns={columns}
      rows={rows}
      rowId={({ flight }) => flight.id}
      selectedId={selection?.kind === "flight" ? selection.id : null}
      onSelect={({ flight }) => session.select({ kind: "flight", id: flight.id })}
      {...many}
      empty="There is no flight ahead."
    />
  );
};
