/** The engines of each lander of a class through the plan: what is used of the rating, sortie by sortie, and when they are due. */
import { useMemo } from "react";
import type { Entity } from "../../../app/entity/entities.ts";
import { lifeOfPlan } from "../../../app/sortie/plan-life.ts";
import { neededEngines } from "../../../app/sortie/engine-words.ts";
import type { LifeRow } from "../../../app/sortie/life.ts";
import { formatDate } from "../../../app/format/time.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import { nameIn } from "../../../app/words/named.ts";

interface Row extends LifeRow {
  readonly lander: string;
  readonly sortie: string;
}

interface LifeTableProps {
  readonly current: CaseForecast;
  readonly craftClass: Entity<"craftClass">;
}

const standing = (row: Row): string =>
  row.exceeds.length === 0
    ? "holds"
    : `before it ${neededEngines(row.dueNumbers, row.engines.length)}: ${row.exceeds.join(" and ")}`;

/** "6", or "12 · 12 · 4 · 4" from engine 1 on where they differ. */
const byEngine = (figures: readonly number[]): string => {
  const texts = figures.map((figure) => formatNumber(figure));
  return new Set(texts).size < 2 ? (texts[0] ?? "") : texts.join(" · ");
};

const columns: readonly Column<Row>[] = [
  { id: "lander", heading: "Lander", value: (row) => row.lander },
  { id: "sortie", heading: "Sortie", value: (row) => row.sortie },
  { id: "at", heading: "Leaves", value: (row) => row.at, text: (row) => formatDate(row.at) },
  {
    id: "ignitions",
    heading: "Ignitions",
    isNumber: true,
    value: (row) => row.ignitions,
    text: (row) => byEngine(row.engines.map(({ ignitions }) => ignitions)),
  },
  {
    id: "burn",
    heading: "Burn time",
    unit: "s",
    isNumber: true,
    value: (row) => row.burnSeconds,
    text: (row) => byEngine(row.engines.map(({ burnSeconds }) => burnSeconds)),
  },
  { id: "standing", heading: "Engines", value: standing, isWide: true },
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
        lander: life.stage === null ? lander.name : `${lander.name}, ${life.stage}`,
        sortie: nameIn(plan.sorties, row.sortieId),
      }));
    });
  }, [plan, glance, craftClass.id]);
  const rated = craftClass.lander?.engines;
  const rating = [
    rated?.ratedIgnitions == null ? "" : `${formatNumber(rated.ratedIgnitions)} ignitions`,
    rated?.ratedBurnSeconds == null ? "" : withUnit(formatNumber(rated.ratedBurnSeconds), "s"),
  ].filter((part) => part !== "");
  return (
    <DataTable
      caption={`Engine life${rating.length === 0 ? "" : `, rated for ${rating.join(" and ")}`}`}
      columns={columns}
      rows={rows}
      rowId={(row) => `${row.sortieId} ${row.lander}`}
      empty="No sortie of this class flies by a profile, so what it uses of the engines is not known."
    />
  );
};
