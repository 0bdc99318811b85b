/** What each class does with each propellant: what it holds, loads, brings home and loses. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { CraftClass, CraftPropellant } from "../../app/entity/craft.ts";
import { wallChilldownKg } from "../../app/storage/top-up-chilldown.ts";
import { rateWords } from "../names/rate-words.ts";
import type { MassUnit } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { massColumn } from "../widgets/mass-column.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";

interface CarriageRow {
  readonly craftClass: CraftClass;
  readonly line: CraftPropellant;
}

const columnsFor = (
  plan: PlanSnapshot,
  rows: readonly CarriageRow[],
  unit: MassUnit,
): readonly Column<CarriageRow>[] => {
  const propellantOf = ({ line }: CarriageRow) => plan.propellants.find(({ id }) => id === line.propellantId);
  return [
    { id: "class", heading: "Class", value: ({ craftClass }) => craftClass.name },
    {
      id: "propellant",
      heading: "Propellant",
      value: (row) => propellantOf(row)?.name,
      show: (row) => <PropellantMark propellant={propellantOf(row)} />,
    },
    massColumn(rows, unit, { id: "capacity", heading: "Holds", massKg: ({ line }) => line.capacityKg }),
    massColumn(rows, unit, { id: "load", heading: "Loads", massKg: ({ line }) => line.loadKg }),
    massColumn(rows, unit, {
      id: "home",
      heading: "Home",
      massKg: ({ craftClass, line }) => (craftClass.role === "lander" ? line.returnKg : null),
    }),
    massColumn(rows, unit, {
      id: "residual",
      heading: "Unusable residual",
      massKg: ({ craftClass, line }) => (craftClass.role === "tanker" ? line.residualKg : null),
    }),
    massColumn(rows, "kg", { id: "chilldown", heading: "Line chilldown", massKg: ({ line }) => line.chilldownKg }),
    massColumn(rows, "kg", {
      id: "wall",
      heading: "Tank chilldown",
      massKg: (row) =>
        row.line.wall === undefined ? null : wallChilldownKg(row.line, propellantOf(row)?.fluid ?? null),
    }),
    {
      id: "share",
      heading: "Lost of flow",
      unit: "%",
      isNumber: true,
      value: ({ line }) => line.lossFraction * 100,
      text: ({ line }) => formatNumber(line.lossFraction * 100, 2),
    },
    {
      id: "rate",
      heading: "Transfer",
      unit: "kg/day",
      isNumber: true,
      value: ({ line }) => line.rateKgPerDay ?? Infinity,
      text: ({ line }) => (line.rateKgPerDay === null ? "at once" : formatNumber(line.rateKgPerDay, 0)),
    },
    {
      id: "loss",
      heading: "Boil-off",
      isWide: true,
      value: ({ line }) => line.kPerDay,
      text: ({ line }) => rateWords(line),
    },
  ];
};

export const CarriageTable = ({ plan }: { plan: PlanSnapshot }) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const rows = useMemo(
    () => plan.craftClasses.flatMap((craftClass) => craftClass.propellants.map((line) => ({ craftClass, line }))),
    [plan],
  );
  const columns = useMemo(() => columnsFor(plan, rows, unit), [plan, rows, unit]);
  return (
    <DataTable
      caption="Propellant capacity"
      columns={columns}
      rows={rows}
      rowId={({ craftClass, line }) => `${craftClass.id}/${line.propellantId}`}
      onSelect={({ craftClass }) => session.select({ kind: "craftClass", id: craftClass.id })}
      empty="No class carries a propellant yet. Select a class and add one."
    />
  );
};
