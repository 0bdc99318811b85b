/** The table's model: its columns for the table library, sorted by value, empty cells last. */
import {
  type ColumnDef,
  type Row,
  type RowData,
  createSortedRowModel,
  rowSortingFeature,
  tableFeatures,
  useTable,
} from "@tanstack/react-table";
import { useMemo } from "react";
import type { Column } from "./column.ts";

export const features = tableFeatures({ rowSortingFeature, sortedRowModel: createSortedRowModel() });
type Features = typeof features;

const compare = <R extends RowData>(a: Row<Features, R>, b: Row<Features, R>, columnId: string): number => {
  const left = a.getValue<string | number>(columnId);
  const right = b.getValue<string | number>(columnId);
  if (typeof left === "number" && typeof right === "number") return left - right;
  return String(left).localeCompare(String(right), "en", { numeric: true });
};

const definition = <R extends RowData>(column: Column<R>): ColumnDef<Features, R> => ({
  id: column.id,
  accessorFn: (row: R) => column.value(row) ?? undefined,
  sortFn: compare,
  sortUndefined: "last",
  sortDescFirst: false,
});

export const useSortedTable = <R extends RowData>(
  columns: readonly Column<R>[],
  rows: readonly R[],
  rowId: (row: R) => string,
  /** By what it is sorted at first; null: as the rows come. */
  first: { readonly id: string; readonly desc: boolean } | null = null,
) => {
  const definitions = useMemo(() => columns.map(definition), [columns]);
  return useTable({
    features,
    columns: definitions,
    data: rows,
    getRowId: rowId,
    ...(first === null ? {} : { initialState: { sorting: [first] } }),
  });
};
