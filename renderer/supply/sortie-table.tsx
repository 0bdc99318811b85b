/** One row a sortie: status, margin of each propellant, slack, what it hinges on, when it could go. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/forecast/plan.ts";
import type { SupplyGlance, SupplyReport } from "../../app/supply/report.ts";
import { formatNumber } from "../format/number.ts";
import type { MassUnit } from "../format/mass.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { massColumn } from "../widgets/mass-column.ts";
import { StatusMark } from "../widgets/status-mark.tsx";
import { type SortieRow, sortieRows } from "./sortie-rows.ts";

const WAITING = "…";

interface SupplyTableProps {
  readonly plan: PlanSnapshot;
  readonly glance: SupplyGlance;
  readonly report: SupplyReport | null;
}

const rank = { short: 0, thin: 1, supplied: 2 } as const;

const columnsFor = (
  plan: PlanSnapshot,
  rows: readonly SortieRow[],
  unit: MassUnit,
  select: (flightId: string) => void,
): readonly Column<SortieRow>[] => {
  const used = plan.propellants
    .filter(({ id }) => rows.some(({ supply }) => supply.lines.some(({ propellantId }) => propellantId === id)))
    .toSorted((a, b) => a.position - b.position);
  const lineOf = (row: SortieRow, propellantId: string) =>
    row.supply.lines.find((line) => line.propellantId === propellantId);
  const margins = used.flatMap(({ id, name }): readonly Column<SortieRow>[] => [
    massColumn(rows, unit, {
      id: `margin ${id}`,
      heading: name,
      isSigned: true,
      massKg: (row) => lineOf(row, id)?.marginOverReserveKg ?? null,
      title: () => `${name}: what is left of what can be drawn, when the load and the reserve are taken off`,
    }),
    {
      id: `percent ${id}`,
      heading: "",
      unit: "%",
      isNumber: true,
      value: (row) => lineOf(row, id)?.marginPercent ?? null,
      text: (row) => {
        const line = lineOf(row, id);
        return line === undefined ? "" : formatNumber(line.marginPercent, 1);
      },
    },
  ]);
  return [
    { id: "name", heading: "Sortie", value: (row) => row.supply.name },
    instantColumn("loads", "Loads", (row) => row.supply.plannedAt),
    {
      id: "status",
      heading: "Status",
      value: (row) => rank[row.supply.status],
      text: (row) => row.supply.status,
      show: (row) => <StatusMark status={row.supply.status} />,
    },
    {
      id: "outcome",
      heading: "So it",
      value: (row) => row.supply.outcome,
    },
    { id: "limiting", heading: "Limited by", value: (row) => row.limiting },
    ...margins,
    massColumn(rows, unit, { id: "missing", heading: "Missing", massKg: (row) => row.missingKg || null }),
    instantColumn("possible", "Could load", (row) => row.supply.firstPossibleAt),
    {
      id: "slack",
      heading: "Least slack",
      unit: "days",
      isNumber: true,
      value: (row) => (row.slackDays === "any" ? Infinity : row.slackDays),
      text: (row) => {
        if (row.slackDays === null) return WAITING;
        return row.slackDays === "any" ? "any" : formatNumber(row.slackDays, 1);
      },
      title: (row) => (row.slackFlight === "" ? undefined : row.slackFlight),
    },
    { id: "slack flight", heading: "of", value: (row) => row.slackFlight },
    {
      id: "hinges",
      heading: "Hinges on",
      isWide: true,
      value: (row) => row.hinges?.length ?? null,
      text: (row) => (row.hinges === null ? WAITING : row.hinges.map(({ name }) => name).join(", ") || "none alone"),
      show: (row) =>
        row.hinges === null || row.hinges.length === 0 ? undefined : (
          <span className="supply-hinges">
            {row.hinges.map(({ id, name }) => (
              <Button key={id} look="link" onPress={() => select(id)}>
                {name}
              </Button>
            ))}
          </span>
        ),
    },
  ];
};

export const SortieTable = ({ plan, glance, report }: SupplyTableProps) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const rows = useMemo(() => sortieRows(plan, glance, report), [plan, glance, report]);
  const columns = useMemo(
    () => columnsFor(plan, rows, unit, (id) => session.select({ kind: "flight", id })),
    [plan, rows, unit, session],
  );
  return (
    <DataTable
      caption="Margins over the reserve at loading"
      columns={columns}
      rows={rows}
      rowId={(row) => row.supply.sortieId}
      selectedId={selection?.kind === "sortie" ? selection.id : null}
      onSelect={(row) => session.select({ kind: "sortie", id: row.supply.sortieId })}
      empty="There is no sortie ahead."
    />
  );
};
