/** What the rows of a file would do, row by row, and what is wrong with the others. */
import type { RowEffect, RowFault, RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import { formatNumber } from "../format/number.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";

const faultColumns: readonly Column<RowFault>[] = [
  { id: "line", heading: "Line", isNumber: true, value: ({ line }) => line },
  { id: "column", heading: "Column", value: ({ column }) => column ?? "the row" },
  { id: "reason", heading: "What is wrong", isSentence: true, value: ({ reason }) => reason },
];

const fieldsText = ({ fields }: RowEffect): string =>
  fields.map(({ field, before, after }) => `${field} ${before === null ? after : `${before} → ${after}`}`).join(", ");

const effectColumns: readonly Column<RowEffect>[] = [
  { id: "line", heading: "Line", isNumber: true, value: ({ line }) => line },
  { id: "what", heading: "Row", value: ({ what }) => what },
  { id: "name", heading: "Name", value: ({ name }) => name },
  {
    id: "fields",
    heading: "What it does",
    isWide: true,
    value: fieldsText,
    show: ({ fields }) => (
      <span className="effect-fields">
        {fields.map(({ field, before, after }) => (
          <span key={field}>
            <span className="effect-field">{field}</span>{" "}
            {before !== null && <span className="effect-before">{before} → </span>}
            <span>{after}</span>
          </span>
        ))}
      </span>
    ),
  },
];

const plural = (count: number, one: string, many: string): string =>
  `${formatNumber(count)} ${count === 1 ? one : many}`;

/** "of 12 rows 3 are new, 2 change something, 7 are as they are" */
export const countWords = ({ rows, newRows, changedRows, unchangedRows, faultyRows }: RowsPreview): string => {
  const parts = [
    newRows > 0 ? `${formatNumber(newRows)} new` : "",
    changedRows > 0 ? `${formatNumber(changedRows)} changed` : "",
    unchangedRows > 0 ? `${formatNumber(unchangedRows)} as they are already` : "",
    faultyRows > 0 ? `${formatNumber(faultyRows)} with errors` : "",
  ].filter((part) => part !== "");
  return `${plural(rows, "row", "rows")}: ${parts.join(", ")}.`;
};

const FaultTable = ({ preview: { faults, faultCount } }: { readonly preview: RowsPreview }) => (
  <DataTable
    caption={
      faultCount > faults.length
        ? `The first ${formatNumber(faults.length)} of ${formatNumber(faultCount)} faults`
        : plural(faultCount, "fault", "faults")
    }
    columns={faultColumns}
    rows={faults}
    rowId={({ line, column, reason }) => `${line}/${column ?? ""}/${reason}`}
    empty="No fault."
  />
);

const EffectTable = ({ preview: { effects, newRows, changedRows } }: { readonly preview: RowsPreview }) => (
  <DataTable
    caption={
      newRows + changedRows > effects.length
        ? `What would change, the first ${formatNumber(effects.length)} of ${plural(newRows + changedRows, "row", "rows")}`
        : "What would change"
    }
    columns={effectColumns}
    rows={effects}
    rowId={({ line }) => String(line)}
    empty="Nothing: every row is in the ledger as it is."
  />
);

export const RowsFound = ({ preview }: { readonly preview: RowsPreview }) => (
  <div className="rows-found">
    {preview.faultCount > 0 && <FaultTable preview={preview} />}
    <EffectTable preview={preview} />
  </div>
);
