/** What the command line says of rows that were read: how each column is understood, what changes, what is wrong. */
import type { ColumnPreview, RowEffect, RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import { textTable } from "./text-table.ts";
import { nameIn } from "../../app/words/named.ts";

const MAX_LINES = 50;

const meaning = ({ to, unit, decision }: ColumnPreview, { targets }: RowsPreview): string => {
  if (decision === "undecided") return "?";
  if (to === null) return "left out";
  const name = nameIn(targets, to);
  return unit === null ? name : `${name}, ${unit}`;
};

/** A line a column: their heading, what it is taken for, and why. */
export const columnLines = (preview: RowsPreview): readonly string[] =>
  preview.columns.length === 0
    ? []
    : textTable(
        ["column", "is", "decided", "such as"].map((title) => ({ title, align: "start" })),
        preview.columns.map((column) => [
          column.heading,
          meaning(column, preview),
          column.decision,
          column.samples[0] ?? "",
        ]),
      ).split("\n");

const effectLine = ({ line, what, name, fields }: RowEffect): string => {
  const parts = fields.map(
    ({ field, before, after }) => `${field} ${before === null ? after : `${before} → ${after}`}`,
  );
  return `  line ${line}: ${what} ${name}: ${parts.join(", ")}`;
};

const cut = (lines: readonly string[], all: number): readonly string[] =>
  all > MAX_LINES ? [...lines.slice(0, MAX_LINES), `  and ${all - MAX_LINES} more`] : lines;

export const rowsText = (preview: RowsPreview): string => {
  const { rows, newRows, changedRows, unchangedRows, faultCount, faultyRows, isTaken } = preview;
  return [
    `${preview.kind}: ${preview.readAs}.`,
    ...columnLines(preview).map((line) => `  ${line}`),
    ...preview.remarks,
    `${rows} rows: ${newRows} new, ${changedRows} changed, ${unchangedRows} as they are, ${faultyRows} with errors; ${isTaken ? (newRows + changedRows > 0 ? "imported" : "nothing to change") : "nothing was imported"}.`,
    ...(preview.booking === null ? [] : [`${isTaken ? "" : "Once imported: "}${preview.booking}`]),
    ...cut(
      preview.faults.map(
        ({ line, column, reason }) => `  line ${line}${column === null ? "" : `, ${column}`}: ${reason}`,
      ),
      faultCount,
    ),
    ...cut(preview.effects.map(effectLine), newRows + changedRows),
  ].join("\n");
};
