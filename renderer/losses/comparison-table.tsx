/** Booked beside predicted: a line a month, over the time that its bookings cover, the difference in units of the gauge. */
import { useMemo } from "react";
import type { PeriodComparison } from "../../app/losses/loss-book.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber, formatSigned } from "../format/number.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";

interface ComparisonTableProps {
  readonly comparisons: readonly PeriodComparison[];
  readonly labelOf: (fromAt: number) => string;
}

type Row = PeriodComparison;

const figure = (
  id: string,
  heading: string,
  unit: string,
  pick: (row: Row) => number | null,
  isSigned = false,
): Column<Row> => ({
  id,
  heading,
  unit,
  isNumber: true,
  value: pick,
  text: (row) => {
    const value = pick(row);
    if (value === null) return "–";
    return isSigned ? formatSigned(value, 1) : formatNumber(value, 1);
  },
});

/** Tanks of one month may have been read at different instants: from the first to the last. */
const coversFrom = (row: Row): number => Math.min(...row.tanks.map((tank) => tank.coversFromAt));
const coversUntil = (row: Row): number => Math.max(...row.tanks.map((tank) => tank.coversUntilAt));

const columnsFor = (labelOf: (fromAt: number) => string): readonly Column<Row>[] => [
  { id: "month", heading: "Month", value: ({ fromAt }) => fromAt, text: ({ fromAt }) => labelOf(fromAt) },
  { id: "from", heading: "Covers from", value: coversFrom, text: (row) => formatInstant(coversFrom(row)) },
  { id: "until", heading: "until", value: coversUntil, text: (row) => formatInstant(coversUntil(row)) },
  figure("booked", "Booked loss", "kg", (row) => row.bookedKg),
  figure("predicted", "Predicted", "kg", (row) => row.predictedKg),
  figure("difference", "Difference", "kg", (row) => row.differenceKg, true),
  figure("gauge", "Gauge", "σ, kg", (row) => row.sigmaKg),
  figure("inSigma", "Difference", "σ", (row) => row.differenceInSigma, true),
];

export const ComparisonTable = ({ comparisons, labelOf }: ComparisonTableProps) => {
  const columns = useMemo(() => columnsFor(labelOf), [labelOf]);
  return (
    <>
      <DataTable
        caption="Booked beside predicted"
        columns={columns}
        rows={comparisons}
        rowId={({ fromAt }) => String(fromAt)}
        empty="No month has two stated levels to compare between: record gauge readings, or book boil-off to date."
      />
      <p className="form-advice">
        Booked loss is boil-off and unaccounted together, between the levels that were stated; the prediction covers the
        same time by the rates in force. Without a gauge reading at both ends there is no σ.
      </p>
    </>
  );
};
