/** The columns and the order that a person chose for a table, kept between starts under the table's id. */
import type { RowData } from "@tanstack/react-table";
import { useEffect, useMemo, useState } from "react";
import { rememberTable, rememberedTable } from "../../state/remembered.ts";
import type { Column } from "./column.ts";
import { useSortedTable } from "./sorted-rows.ts";

/** `keep`: null: nothing is kept, and all columns are shown. */
export const useKeptTable = <R extends RowData>(
  all: readonly Column<R>[],
  rows: readonly R[],
  rowId: (row: R) => string,
  keep: string | null,
) => {
  const [kept] = useState(() => (keep === null ? null : rememberedTable(keep)));
  const [hidden, setHidden] = useState<readonly string[]>(kept?.hidden ?? []);
  const hiddenIds = useMemo(() => new Set(hidden), [hidden]);
  const columns = useMemo(
    () => (hiddenIds.size === 0 ? all : all.filter(({ id }, index) => index === 0 || !hiddenIds.has(id))),
    [all, hiddenIds],
  );
  // A column that is not there any more sorts nothing.
  const sort = kept?.sort ?? null;
  const table = useSortedTable(
    columns,
    rows,
    rowId,
    sort !== null && all.some(({ id }) => id === sort.id) ? sort : null,
  );
  const sorted = columns.flatMap(({ id }) => {
    const way = table.getColumn(id)?.getIsSorted() ?? false;
    return way === false ? [] : [{ id, desc: way === "desc" }];
  })[0];
  const sortId = sorted?.id ?? null;
  const isDescending = sorted?.desc ?? false;
  useEffect(() => {
    if (keep === null) return;
    rememberTable(keep, { hidden, sort: sortId === null ? null : { id: sortId, desc: isDescending } });
  }, [keep, hidden, sortId, isDescending]);
  return { columns, table, hiddenIds, setHidden };
};
