/** The headings of a table: each sorts by its column, up, down and back. */
import type { RowData } from "@tanstack/react-table";
import { takesRoom } from "./cell-words.tsx";
import type { Column } from "./column.ts";
import type { GridPlace } from "./grid-keys.ts";
import type { useSortedTable } from "./sorted-rows.ts";

interface HeadingRowProps<R extends RowData> {
  readonly columns: readonly Column<R>[];
  readonly table: ReturnType<typeof useSortedTable<R>>;
  readonly tabStop: GridPlace;
  readonly onPlace: (place: GridPlace) => void;
}

const sortWords = { asc: "ascending", desc: "descending" } as const;
const sortMarks = { asc: "▴", desc: "▾" } as const;

export const HeadingRow = <R extends RowData>({ columns, table, tabStop, onPlace }: HeadingRowProps<R>) => (
  <tr aria-rowindex={1}>
    {columns.map((column, index) => {
      const model = table.getColumn(column.id);
      const order = model?.getIsSorted() ?? false;
      return (
        <th
          key={column.id}
          scope="col"
          data-place={`-1:${index}`}
          tabIndex={tabStop.row < 0 && tabStop.column === index ? 0 : -1}
          onFocus={() => onPlace({ row: -1, column: index })}
          aria-sort={order === false ? "none" : sortWords[order]}
          className={`heading${column.isNumber === true ? " cell-number" : ""}${takesRoom(column) ? " cell-wide" : ""}`}
        >
          <button type="button" tabIndex={-1} className="heading-button" onClick={() => model?.toggleSorting()}>
            <span className="heading-name">{column.heading}</span>
            {column.unit !== undefined && <span className="heading-unit">{column.unit}</span>}
            <span className="heading-order" aria-hidden="true">
              {order === false ? "" : sortMarks[order]}
            </span>
          </button>
        </th>
      );
    })}
  </tr>
);
