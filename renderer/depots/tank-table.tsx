/** The tanks: what is in them now, what they may hold, what they lose and how long they last. */
import { useMemo } from "react";
import { daysToEmpty } from "../../app/storage/level.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { rateInUnits } from "../../app/storage/rate-units.ts";
import type { MassUnit } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import { EntityTable } from "../forms/entity-table.tsx";
import { tankName } from "../names/entity-words.ts";
import { useApp } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { massColumn } from "../widgets/mass-column.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";
import { FillBar } from "./fill-bar.tsx";
import { levelNow, rateNow } from "../state/tank-now.ts";

const columnsFor = (plan: PlanSnapshot, rows: readonly Tank[], unit: MassUnit): readonly Column<Tank>[] => {
  const lossOf = (tank: Tank) => rateInUnits(rateNow(plan, tank.id), levelNow(plan, tank.id), null);
  const emptyIn = (tank: Tank): number | null => {
    const { kPerDay, cKgPerDay } = rateNow(plan, tank.id);
    return daysToEmpty(levelNow(plan, tank.id), kPerDay, cKgPerDay);
  };
  const propellantOf = (tank: Tank) => plan.propellants.find(({ id }) => id === tank.propellantId);
  return [
    {
      id: "name",
      heading: "Tank",
      value: (tank) => tankName(plan, tank.id),
      show: (tank) => <PropellantMark propellant={propellantOf(tank)} words={tankName(plan, tank.id)} />,
      title: (tank) => propellantOf(tank)?.name,
    },
    {
      id: "fill",
      heading: "Filled",
      value: (tank) => levelNow(plan, tank.id) / (tank.maximumFillKg || Infinity),
      text: (tank) =>
        tank.maximumFillKg === 0 ? "" : `${formatNumber((100 * levelNow(plan, tank.id)) / tank.maximumFillKg, 0)} %`,
      show: (tank) => <FillBar tank={tank} levelKg={levelNow(plan, tank.id)} position={propellantOf(tank)?.position} />,
    },
    massColumn(rows, unit, { id: "now", heading: "Now", massKg: (tank) => levelNow(plan, tank.id) }),
    massColumn(rows, unit, { id: "most", heading: "Maximum fill", massKg: (tank) => tank.maximumFillKg }),
    massColumn(rows, unit, { id: "heel", heading: "Heel", massKg: (tank) => tank.heelKg }),
    massColumn(rows, unit, { id: "reserve", heading: "Reserve", massKg: (tank) => tank.reserveKg }),
    {
      id: "share",
      heading: "Boil-off",
      unit: "%/day",
      isNumber: true,
      value: (tank) => lossOf(tank).percentPerDay,
      text: (tank) => {
        const percent = lossOf(tank).percentPerDay;
        return percent === null ? "" : formatNumber(percent, 3);
      },
    },
    {
      id: "loss",
      heading: "now",
      unit: "kg/day",
      isNumber: true,
      value: (tank) => lossOf(tank).kgPerDay,
      text: (tank) => formatNumber(lossOf(tank).kgPerDay, 1),
    },
    {
      id: "empty",
      heading: "To reserve",
      unit: "days",
      isNumber: true,
      value: (tank) => emptyIn(tank) ?? Infinity,
      text: (tank) => {
        const days = emptyIn(tank);
        return days === null ? "never" : formatNumber(days, 0);
      },
      title: () => "by its loss alone, at the rate now in force; a share lost alone never empties a tank",
    },
  ];
};

export const TankTable = ({ plan, depotId }: { plan: PlanSnapshot; depotId: string | null }) => {
  const unit = useApp((state) => state.massUnit);
  const rows = useMemo(
    () =>
      plan.tanks.toSorted(
        (a, b) =>
          a.ownerKind.localeCompare(b.ownerKind) * -1 ||
          a.ownerId.localeCompare(b.ownerId) ||
          a.name.localeCompare(b.name, "en", { numeric: true }),
      ),
    [plan],
  );
  const columns = useMemo(() => columnsFor(plan, rows, unit), [plan, rows, unit]);
  return (
    <EntityTable
      kind="tank"
      caption="Tanks, as of the books"
      columns={columns}
      rows={rows}
      nearId={depotId}
      empty="No tank yet. A tank holds one propellant, in a depot or aboard a lander."
    />
  );
};
