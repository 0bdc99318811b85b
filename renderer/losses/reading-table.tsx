/** The readings under a fit, with their residuals; any can be left out, none is dropped in silence. */
import { useMemo } from "react";
import type { Reading } from "../../app/ledger/journal.ts";
import type { FitResult, FittedReading } from "../../app/losses/fit/fit-result.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber, formatSigned } from "../format/number.ts";
import "../widgets/button.css";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";

interface Row extends Pick<Reading, "id" | "at" | "massKg" | "sigmaKg"> {
  readonly fitted: FittedReading | undefined;
  /** Under another rate than the one fitted. */
  readonly isApart: boolean;
}

interface ReadingTableProps {
  readonly readings: readonly Reading[];
  readonly fit: FitResult | null;
  readonly leftOutIds: readonly string[];
  readonly onLeaveOut: (ids: readonly string[]) => void;
}

const number = (
  id: string,
  heading: string,
  unit: string,
  value: (row: Row) => number | undefined,
  isSigned = false,
): Column<Row> => ({
  id,
  heading,
  unit,
  isNumber: true,
  value,
  text: (row) => {
    const figure = value(row);
    if (figure === undefined) return "";
    return isSigned ? formatSigned(figure, 1) : formatNumber(figure, 1);
  },
});

const columnsFor = (
  leftOutIds: readonly string[],
  onLeaveOut: (ids: readonly string[]) => void,
): readonly Column<Row>[] => {
  const isOut = (row: Row): boolean => leftOutIds.includes(row.id);
  const turn = (row: Row): void =>
    onLeaveOut(isOut(row) ? leftOutIds.filter((id) => id !== row.id) : [...leftOutIds, row.id]);
  return [
    { id: "at", heading: "Reading", value: ({ at }) => at, text: ({ at }) => formatInstant(at) },
    number("mass", "Measured", "kg", ({ massKg }) => massKg),
    number("sigma", "σ", "kg", ({ sigmaKg }) => sigmaKg),
    number("fitted", "Fitted", "kg", ({ fitted }) => fitted?.fittedKg),
    number("residual", "Residual", "kg", ({ fitted }) => fitted?.residualKg, true),
    number("inSigma", "Residual", "σ", ({ fitted }) => fitted?.residualInSigma, true),
    {
      id: "standing",
      heading: "Counts",
      value: (row) => {
        if (isOut(row)) return "left out";
        if (row.isApart) return "no, another rate";
        return row.fitted?.isFlagged === true ? "yes, beyond 4 σ" : "yes";
      },
    },
    {
      id: "leave",
      heading: "In the fit",
      value: () => "",
      show: (row) => (
        // A plain button: there is one in every row, and the kit's own takes ten times as long to draw.
        <button
          type="button"
          className="button button-link"
          onClick={() => turn(row)}
          aria-label={`${isOut(row) ? "Take in" : "Leave out"} the reading of ${formatInstant(row.at)}`}
        >
          {isOut(row) ? "Take in" : "Leave out"}
        </button>
      ),
      isWide: true,
    },
  ];
};

export const ReadingTable = ({ readings, fit, leftOutIds, onLeaveOut }: ReadingTableProps) => {
  const rows = useMemo((): readonly Row[] => {
    const fitted = new Map(fit?.readings.map((each) => [each.readingId, each]));
    const apart = new Set(fit?.apart.map(({ readingId }) => readingId));
    return readings.map((reading) => ({
      ...reading,
      fitted: fitted.get(reading.id),
      isApart: apart.has(reading.id),
    }));
  }, [readings, fit]);
  const columns = useMemo(() => columnsFor(leftOutIds, onLeaveOut), [leftOutIds, onLeaveOut]);
  return (
    <DataTable
      caption="Readings used in the fit"
      columns={columns}
      rows={rows}
      rowId={({ id }) => id}
      tone={(row) => (leftOutIds.includes(row.id) || row.isApart ? "faint" : undefined)}
      empty="No gauge reading in this span. Record some, or bring them in from a CSV file."
    />
  );
};
