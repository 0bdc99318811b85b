/** One row a sortie and propellant: what can be drawn, what is needed, what is left. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { SupplyGlance } from "../../app/supply/answer.ts";
import { formatNumber } from "../format/number.ts";
import type { MassUnit } from "../format/mass.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { dayColumn } from "../widgets/instant-column.ts";
import { massColumn } from "../widgets/mass-column.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";
import { StatusMark } from "../widgets/status-mark.tsx";
import { type LineRow, lineRows } from "./sortie-rows.ts";

const columnsFor = (plan: PlanSnapshot, rows: readonly LineRow[], unit: MassUnit): readonly Column<LineRow>[] => {
  const propellantOf = (row: LineRow) => plan.propellants.find(({ id }) => id === row.line.propellantId);
  return [
    { id: "name", heading: "Sortie", value: (row) => row.sortie.name },
    dayColumn("loads", "Loads", (row) => row.sortie.plannedAt),
    {
      id: "propellant",
      heading: "Propellant",
      value: (row) => propellantOf(row)?.name,
      show: (row) => <PropellantMark propellant={propellantOf(row)} />,
    },
    {
      id: "status",
      heading: "Status",
      value: (row) => row.line.status,
      show: (row) => <StatusMark status={row.line.status} />,
    },
    massColumn(rows, unit, { id: "available", heading: "Available", massKg: ({ line }) => line.availableKg }),
    massColumn(rows, unit, { id: "required", heading: "Required", massKg: ({ line }) => line.requiredKg }),
    massColumn(rows, unit, {
      id: "margin",
      heading: "Margin over reserve",
      isSigned: true,
      isShortage: true,
      massKg: ({ line }) => line.marginOverReserveKg,
    }),
    {
      id: "percent",
      heading: "of required",
      unit: "%",
      isNumber: true,
      value: ({ line }) => line.marginPercent,
      text: ({ line }) => formatNumber(line.marginPercent, 1),
    },
    massColumn(rows, unit, {
      id: "missing",
      heading: "Missing",
      isShortage: true,
      massKg: ({ line }) => line.missingKg || null,
    }),
    {
      id: "limiting",
      heading: "Limiting",
      isWide: true,
      value: (row) => (row.isLimiting ? "limiting" : null),
    },
  ];
};

export const LineTable = ({ plan, glance }: { plan: PlanSnapshot; glance: SupplyGlance }) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const rows = useMemo(() => lineRows(glance), [glance]);
  const columns = useMemo(() => columnsFor(plan, rows, unit), [plan, rows, unit]);
  return (
    <DataTable
      caption="Every sortie and propellant at loading"
      columns={columns}
      rows={rows}
      rowId={({ sortie, line }) => `${sortie.sortieId}/${line.propellantId}`}
      onSelect={({ sortie }) => session.select({ kind: "sortie", id: sortie.sortieId })}
      empty="There is no sortie ahead."
    />
  );
};
