/** The engines of each lander of a class through the plan: what is used of the rating, sortie by sortie, and when they are due. */
import { useMemo } from "react";
import type { Entity } from "../../../app/ledger/entities.ts";
import { lifeOfPlan } from "../../../app/sortie/plan-life.ts";
import type { LifeRow } from "../../../app/sortie/life.ts";
import { formatDate } from "../../../app/ledger/time.ts";
import { formatNumber } from "../../format/number.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";

interface Row extends LifeRow {
  readonly lander: string;
  readonly sortie: string;
}

interface LifeTableProps {
  readonly current: CaseForecast;
  readonly craftClass: Entity<"craftClass">;
}

const standing = (row: Row): string =>
  row.exceeds.length === 0 ? "holds" : `engine change due before it: ${row.exceeds.join(" and ")}`;

const columns: readonly Column<Row>[] = [
  { id: "lander", heading: "Lander", value: (row) => row.lander },
  { id: "sortie", heading: "Sortie", value: (row) => row.sortie, isWide: true },
  { id: "at", heading: "Leaves", value: (row) => row.at, text: (row) => formatDate(row.at) },
  {
    id: "ignitions",
    heading: "Ignitions",
    isNumber: true,
    value: (row) => row.ignitions,
    text: (row) => formatNumber(row.ignitions),
  },
  {
    id: "burn",
    heading: "Burn time",
    unit: "s",
    isNumber: true,
    value: (row) => row.burnSeconds,
    text: (row) => formatNumber(row.burnSeconds),
  },
  { id: "standing", heading: "Engines", value: standing },
];

export const LifeTable = ({ current, craftClass }: LifeTableProps) => {
  const { plan, glance } = current;
  const rows = useMemo(() => {
    const leaves = new Map(glance.sorties.map(({ sortieId, loadedAt }) => [sortieId, loadedAt]));
    const { lives } = lifeOfPlan(plan, (id, plannedAt) => (leaves.has(id) ? (leaves.get(id) ?? null) : plannedAt));
    return lives.flatMap((life): Row[] => {
      const lander = plan.craft.find(({ id }) => id === life.landerId);
      if (lander?.classId !== craftClass.id) return [];
      return life.rows.map((row) => ({
        ...row,
        lander: lander.name,
        sortie: plan.sorties.find(({ id }) => id === row.sortieId)?.name ?? row.sortieId,
      }));
    });
  }, [plan, glance, craftClass.id]);
  const rated = craftClass.lander?.engines;
  const rating = [
    rated?.ratedIgnitions == null ? "" : `${formatNumber(rated.ratedIgnitions)} ignitions`,
    rated?.ratedBurnSeconds == null ? "" : `${formatNumber(rated.ratedBurnSeconds)} s`,
  ].filter((part) => part !== "");
  return (
    <DataTable
      caption={`Engine life${rating.length === 0 ? "" : `, rated for ${rating.join(" and ")}`}`}
      columns={columns}
      rows={rows}
      rowId={(row) => row.sortieId}
      empty="No sortie of this class flies by a profile, so what it uses of the engines is not known."
    />
  );
};
