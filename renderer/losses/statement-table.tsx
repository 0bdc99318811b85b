/** The loss statement of one depot and propellant: a line a month, to the gram. */
import { useMemo } from "react";
import type { Statement } from "../../app/losses/statement.ts";
import type { StatementSums } from "../../app/ledger/statement-sums.ts";
import { formatNumber } from "../format/number.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";

interface Row {
  readonly label: string;
  readonly line: StatementSums;
}

interface StatementTableProps {
  readonly caption: string;
  /** Which reading of the book it is, in a sentence. */
  readonly advice: string;
  readonly statement: Statement;
  readonly labelOf: (fromAt: number) => string;
}

type Grams = Exclude<keyof StatementSums, "fromAt" | "untilAt" | "depotId" | "propellantId">;

const grams = (field: Grams, heading: string): Column<Row> => ({
  id: field,
  heading,
  unit: "kg",
  isNumber: true,
  value: ({ line }) => line[field] / 1000,
  text: ({ line }) => formatNumber(line[field] / 1000, 3),
});

const columns: readonly Column<Row>[] = [
  { id: "month", heading: "Month", value: ({ line }) => line.fromAt, text: ({ label }) => label },
  grams("openingGrams", "Opening"),
  grams("receivedGrams", "Received"),
  grams("drawnGrams", "Drawn"),
  grams("boilOffGrams", "Boil-off"),
  grams("handoverLossGrams", "Handover"),
  grams("ventedGrams", "Vented"),
  grams("unaccountedGrams", "Unaccounted"),
  grams("closingGrams", "Closing"),
];

export const StatementTable = ({ caption, advice, statement, labelOf }: StatementTableProps) => {
  const rows = useMemo((): readonly Row[] => {
    const months = statement.lines.map((line) => ({ label: labelOf(line.fromAt), line }));
    // Sorted by month it stays the last: it begins where the last month ends.
    const total = { ...statement.total, fromAt: statement.total.untilAt };
    return [...months, { label: "All", line: total }];
  }, [statement, labelOf]);
  return (
    <>
      <DataTable caption={caption} columns={columns} rows={rows} rowId={({ label }) => label} empty="No months." />
      <p className="form-advice">
        Opening + received − drawn − boil-off − handover − vented − unaccounted = closing, to the gram. {advice}
      </p>
    </>
  );
};
