/** The loss periods: from when to when a tank loses how much, and why. */
import { useMemo } from "react";
import { rateOf } from "../../app/storage/loss-rate.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { LossPeriod } from "../../app/entity/loss-period.ts";
import { lossForm, percentFromK, RATE_MONTH_DAYS } from "../../app/storage/rate-units.ts";
import { formatNumber } from "../format/number.ts";
import { EntityTable } from "../forms/entity-table.tsx";
import { tankName } from "../names/entity-words.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { instantColumn } from "../widgets/instant-column.ts";

/** A part that a rate does not have is a dash, not noughts. */
const figureOrNone = (value: number, decimals: number): string => (value === 0 ? "–" : formatNumber(value, decimals));

const percentColumn = (days: number, unit: string): Column<LossPeriod> => ({
  id: unit,
  heading: days === 1 ? "Share" : "",
  unit,
  isNumber: true,
  value: ({ basis }) => percentFromK(rateOf(basis).kPerDay, days),
  text: ({ basis }) => figureOrNone(percentFromK(rateOf(basis).kPerDay, days), 3),
});

const columnsFor = (plan: PlanSnapshot): readonly Column<LossPeriod>[] => [
  { id: "tank", heading: "Tank", value: ({ tankId }) => tankName(plan, tankId) },
  instantColumn("from", "From", ({ fromAt }) => fromAt, "the beginning"),
  instantColumn("until", "Until", ({ untilAt }) => untilAt, "further notice"),
  percentColumn(1, "%/day"),
  percentColumn(RATE_MONTH_DAYS, "%/month"),
  {
    id: "steady",
    heading: "Steady",
    unit: "kg/day",
    isNumber: true,
    value: ({ basis }) => rateOf(basis).cKgPerDay,
    text: ({ basis }) => figureOrNone(rateOf(basis).cKgPerDay, 1),
  },
  { id: "form", heading: "Form", value: ({ basis }) => lossForm(rateOf(basis)) },
  { id: "basis", heading: "Basis", value: ({ basis }) => basis.kind },
  { id: "case", heading: "Applies to", value: ({ planCaseId }) => (planCaseId === null ? "every case" : "this case") },
  { id: "reason", heading: "Reason", isWide: true, value: ({ reason }) => reason },
];

export const PeriodTable = ({ plan }: { plan: PlanSnapshot }) => {
  const columns = useMemo(() => columnsFor(plan), [plan]);
  const rows = useMemo(
    () =>
      plan.lossPeriods.toSorted(
        (a, b) => a.tankId.localeCompare(b.tankId) || (a.fromAt ?? -Infinity) - (b.fromAt ?? -Infinity),
      ),
    [plan.lossPeriods],
  );
  return (
    <EntityTable
      kind="lossPeriod"
      caption="Loss periods"
      columns={columns}
      rows={rows}
      empty="No loss period yet: every depot tank keeps all it has. Add one for each tank."
    />
  );
};
