/** Every point as a row: its inputs, and what was asked there. */
import { useMemo } from "react";
import { columnUnit } from "../../app/study/column-words.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { cellAt, rowsIn } from "../../app/study/study-table.ts";
import { formatNumber } from "../format/number.ts";
import { useApp } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { decimalsShown, shownUnit } from "../../app/study/shown-figure.ts";
import { columnTitle } from "./point-columns.ts";

interface PointTableProps {
  readonly answer: StudyAnswer;
  readonly chosen: number | null;
  readonly onChoose: (row: number) => void;
}

interface PointRow {
  readonly row: number;
}

export const PointTable = ({ answer, chosen, onChoose }: PointTableProps) => {
  const unit = useApp((state) => state.massUnit);
  const columns = useMemo(
    () =>
      answer.columns.map((_, place): Column<PointRow> => {
        const isNumber = !answer.rows.wordColumns.includes(place);
        const figures = isNumber
          ? Array.from({ length: rowsIn(answer.rows) }, (_, row) => cellAt(answer.rows, row, place)).filter(
              (cell) => typeof cell === "number",
            )
          : [];
        const most = figures.reduce((sofar, cell) => Math.max(sofar, Math.abs(cell)), 0);
        const shown = shownUnit(columnUnit(answer, place), unit, most);
        const room = most / shown.per >= 1000 ? 0 : most / shown.per >= 10 ? 2 : 4;
        const decimals = figures.reduce((sofar, cell) => Math.max(sofar, decimalsShown(cell / shown.per, room)), 0);
        const value = ({ row }: PointRow) => {
          const cell = cellAt(answer.rows, row, place);
          return typeof cell === "number" ? cell / shown.per : cell;
        };
        return {
          id: String(place),
          heading: columnTitle(answer, place),
          ...(shown.unit === "" ? {} : { unit: shown.unit }),
          isNumber,
          value,
          text: (row) => {
            const cell = value(row);
            return typeof cell === "number" ? formatNumber(cell, decimals) : (cell ?? "–");
          },
        };
      }),
    [answer, unit],
  );
  const rows = useMemo(() => Array.from({ length: rowsIn(answer.rows) }, (_, row) => ({ row })), [answer.rows]);
  return (
    <DataTable
      caption="The points of the study"
      columns={columns}
      rows={rows}
      rowId={({ row }) => String(row)}
      selectedId={chosen === null ? null : String(chosen)}
      onSelect={({ row }) => onChoose(row)}
      empty="No point has been computed yet."
    />
  );
};
