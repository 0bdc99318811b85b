/**
 * The table of the page: sortable, walked by the keyboard as a grid, copied as text, long ones drawn only where they are
 * seen. Enter selects the row, or does what the cell's button does; Shift with arrows marks several rows. In a table that is
 * filled in where it stands, typing or F2 opens a cell, a block can be pasted, and marked cells filled down.
 */
import type { RowData } from "@tanstack/react-table";
import { type KeyboardEvent, type ReactNode, useEffect, useId, useMemo, useRef, useState } from "react";
import { useVirtualizer } from "@tanstack/react-virtual";
import { Button } from "../button.tsx";
import { useCopyText } from "../copying.ts";
import { CellField } from "./cell-field.tsx";
import { CellWords, cellClass, takesRoom } from "./cell-words.tsx";
import { ShownColumns } from "./shown-columns.tsx";
import { type Column, cellText } from "./column.ts";
import { tableText } from "./copy-text.ts";
import { type GridPlace, placeAfter } from "./grid-keys.ts";
import { HeadingRow } from "./heading-row.tsx";
import { HiddenColumnSign, useHiddenColumns } from "./hidden-columns.tsx";
import { useHeldOrder } from "./held-order.ts";
import type { Sheet } from "./sheet.ts";
import { Refusals } from "./sheet-notes.tsx";
import { useKeptTable } from "./use-kept-table.ts";
import { useSheet } from "./use-sheet.ts";
import "./data-table.css";

export interface DataTableProps<R> {
  readonly caption: string;
  /** Shown above the table beside the caption. */
  readonly tools?: ReactNode;
  readonly columns: readonly Column<R>[];
  readonly rows: readonly R[];
  readonly rowId: (row: R) => string;
  readonly selectedId?: string | null;
  readonly onSelect?: (row: R) => void;
  /** Those selected together with others. */
  readonly selectedIds?: ReadonlySet<string>;
  /** With Ctrl: one more, or without it; with Shift: all of a range, and nothing else. Absent: one at a time. */
  readonly onSelectMany?: (rows: readonly R[], how: "toggle" | "range") => void;
  /** What is said in place of rows. */
  readonly empty: ReactNode;
  /** A row's particulars, under it, when it is opened. */
  readonly detail?: (row: R) => ReactNode;
  readonly tone?: (row: R) => "faint" | undefined;
  /** Under this id columns can be chosen, and they and the order are kept; absent: all columns are shown. */
  readonly keep?: string;
  /** Takes what is written into cells; absent: nothing can be. */
  readonly sheet?: Sheet | undefined;
}

const ROW_PX = 28;
/** Shorter tables are drawn whole. */
const LONG = 150;

/** Keeps the room of rows that are not drawn. */
const Gap = ({ px, columns }: { px: number; columns: number }) =>
  px > 0 && (
    <tr aria-hidden="true">
      {/* eslint-disable-next-line jsx-a11y/control-has-associated-label -- holds nothing */}
      <td colSpan={columns} style={{ height: px }} />
    </tr>
  );

export const DataTable = <R extends RowData>(props: DataTableProps<R>) => {
  const { caption, rows, rowId, onSelect, onSelectMany, detail } = props;
  const copyText = useCopyText();
  const captionId = useId();
  const scroller = useRef<HTMLDivElement>(null);
  const grid = useRef<HTMLTableElement>(null);
  const catcher = useRef<HTMLTextAreaElement>(null);
  const [at, setAt] = useState<GridPlace>({ row: 0, column: 0 });
  const [anchor, setAnchor] = useState<GridPlace | null>(null);
  const [openId, setOpenId] = useState<string | null>(null);
  const hidden = useHiddenColumns(scroller);
  const { columns, table, hiddenIds, setHidden } = useKeptTable(props.columns, rows, rowId, props.keep ?? null);
  const order = useHeldOrder(table.getRowModel().rows);
  const sorted = order.rows;
  const sheet = useSheet({ sheet: props.sheet, columns, rows: sorted });
  const isLong = sorted.length > LONG && detail === undefined;

  // eslint-disable-next-line react/incompatible-library -- read anew in each rendering, handed to nobody
  const virtual = useVirtualizer({
    count: sorted.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => ROW_PX,
    overscan: 12,
    enabled: isLong,
  });
  const slots = virtual.getVirtualItems();
  const first = isLong ? (slots[0]?.index ?? 0) : 0;
  const shown = isLong ? sorted.slice(first, (slots.at(-1)?.index ?? -1) + 1) : sorted;
  const above = isLong ? (slots[0]?.start ?? 0) : 0;
  const below = isLong ? virtual.getTotalSize() - (slots.at(-1)?.end ?? 0) : 0;

  const moved = useRef(false);
  useEffect(() => {
    if (!moved.current) return;
    const cell = grid.current?.querySelector<HTMLElement>(`[data-place="${at.row}:${at.column}"]`) ?? null;
    // Of a long table the row may not be drawn yet: then after it has been scrolled to.
    moved.current = cell === null;
    cell?.focus();
  });

  const marked = useMemo(() => {
    if (anchor === null) return null;
    return { from: Math.min(anchor.row, at.row), until: Math.max(anchor.row, at.row) };
  }, [anchor, at.row]);
  const isMarked = (index: number): boolean => marked !== null && index >= marked.from && index <= marked.until;

  /** Within marked rows of a table that is filled in: the columns that a fill would write. */
  const isInBlock = (row: number, column: number): boolean =>
    props.sheet !== undefined &&
    anchor !== null &&
    isMarked(row) &&
    column >= Math.min(anchor.column, at.column) &&
    column <= Math.max(anchor.column, at.column);
  const goTo = (next: GridPlace): void => {
    setAt(next);
    moved.current = true;
    if (isLong && next.row >= 0) virtual.scrollToIndex(next.row);
  };
  const openCell = (place: GridPlace, text?: string): boolean => {
    order.hold();
    const isTaken = sheet.begin(place, text);
    grid.current?.querySelector<HTMLElement>(".cell-field")?.focus();
    return isTaken;
  };
  const fillDown = (): void => {
    order.hold();
    if (anchor !== null && anchor.row !== at.row) sheet.fill(anchor, at);
    else {
      const next = { row: Math.min(at.row + 1, sorted.length - 1), column: at.column };
      sheet.fill(at, next);
      goTo(next);
    }
  };
  const commit = (step: { readonly rows: number; readonly columns: number } | null): void => {
    order.hold();
    if (!sheet.commit() || step === null) return;
    goTo({
      row: Math.max(0, Math.min(sorted.length - 1, at.row + step.rows)),
      column: Math.max(0, Math.min(columns.length - 1, at.column + step.columns)),
    });
  };

  const pasteAt = (text: string, index: GridPlace): void => {
    order.hold();
    sheet.paste(text, { row: Math.max(0, index.row), column: index.column });
  };
  const focusCell = (): void =>
    grid.current?.querySelector<HTMLElement>(`[data-place="${at.row}:${at.column}"]`)?.focus();

  const selectRange = (from: number, until: number): void =>
    onSelectMany?.(
      sorted.slice(Math.min(from, until), Math.max(from, until) + 1).map((row) => row.original),
      "range",
    );

  const copy = (which: "all" | "marked"): void => {
    const chosen =
      which === "all" ? sorted : sorted.filter((_, index) => (marked === null ? index === at.row : isMarked(index)));
    copyText(
      tableText(
        columns,
        chosen.map((row) => row.original),
      ),
      `${caption}, ${chosen.length} ${chosen.length === 1 ? "row" : "rows"}`,
    );
  };

  const activate = (place: GridPlace): void => {
    const inside = grid.current
      ?.querySelector(`[data-place="${place.row}:${place.column}"]`)
      ?.querySelector<HTMLElement>("button, a, input");
    if (inside !== null && inside !== undefined) return inside.tagName === "INPUT" ? inside.focus() : inside.click();
    const row = sorted[place.row];
    if (row === undefined) return;
    if (detail !== undefined) setOpenId(openId === row.id ? null : row.id);
    onSelect?.(row.original);
  };

  const onKeyDown = (event: KeyboardEvent<HTMLTableElement>): void => {
    const inCell = (event.target as HTMLElement).closest("[data-place]");
    if (event.target !== inCell) return;
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "c") {
      copy(at.row < 0 ? "all" : "marked");
      return event.preventDefault();
    }
    const row = sorted[at.row];
    if (event.key === " " && (event.ctrlKey || event.metaKey) && onSelectMany !== undefined && row !== undefined) {
      onSelectMany([row.original], "toggle");
      return event.preventDefault();
    }
    // What is pasted goes to something that text can be put into, in every host; the cell has it from there.
    if (props.sheet !== undefined && (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "v") {
      catcher.current?.focus();
      return;
    }
    if (props.sheet !== undefined && at.row >= 0) {
      const isPlain = !event.ctrlKey && !event.metaKey && !event.altKey;
      const isLetter = event.key.length === 1 && event.key !== " " && isPlain;
      if ((event.key === "F2" && isPlain && !event.shiftKey) || isLetter) {
        if (openCell(at, isLetter ? event.key : undefined)) return event.preventDefault();
      }
      if (event.key === "ArrowDown" && event.altKey) {
        fillDown();
        return event.preventDefault();
      }
    }
    if (event.key === "Enter" || event.key === " ") {
      activate(at);
      return event.preventDefault();
    }
    const next = placeAfter(event, at, sorted.length, columns.length);
    if (next === null) return;
    event.preventDefault();
    const from = event.shiftKey && next.row >= 0 && at.row >= 0 ? (anchor ?? at) : null;
    setAnchor(from);
    if (from !== null && next.row !== at.row) selectRange(from.row, next.row);
    goTo(next);
  };

  const tabStop = { row: Math.min(at.row, sorted.length - 1), column: Math.min(at.column, columns.length - 1) };
  return (
    <div className="data-table">
      <div className="data-table-head">
        <h2 id={captionId}>{caption}</h2>
        {props.sheet?.closed === null && sorted.length > 0 && (
          <span className="sheet-hint">Type in a cell, or paste a block of cells</span>
        )}
        {props.tools}
        {props.sheet !== undefined && marked !== null && marked.from < marked.until && (
          <Button look="quiet" unable={props.sheet.closed} onPress={fillDown}>
            Fill down
          </Button>
        )}
        {props.keep !== undefined && (
          <ShownColumns caption={caption} columns={props.columns} hidden={hiddenIds} onChange={setHidden} />
        )}
        <HiddenColumnSign hidden={hidden} scroller={scroller} />
        {sorted.length > 0 && (
          <Button look="quiet" onPress={() => copy("all")} aria-label={`Copy table: ${caption}`}>
            Copy
          </Button>
        )}
      </div>
      {props.sheet !== undefined && (
        <textarea
          ref={catcher}
          className="paste-catcher"
          aria-hidden="true"
          tabIndex={-1}
          value=""
          onChange={() => undefined}
          onPaste={(event) => {
            event.preventDefault();
            pasteAt(event.clipboardData.getData("text/plain"), at);
            focusCell();
          }}
          // Where there was nothing to paste.
          onKeyUp={focusCell}
        />
      )}
      <Refusals refusals={sheet.refusals} onDismiss={sheet.dismiss} />
      <div
        className="data-table-scroll"
        ref={scroller}
        data-more-left={hidden.left > 0 || undefined}
        data-more-right={hidden.right > 0 || undefined}
      >
        {/* eslint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a grid takes keys */}
        <table
          ref={grid}
          className={columns.some(takesRoom) ? "table-wide" : ""}
          // eslint-disable-next-line jsx-a11y/no-noninteractive-element-to-interactive-role -- the grid pattern on a real table
          role={detail === undefined ? "grid" : "treegrid"}
          aria-labelledby={captionId}
          aria-rowcount={sorted.length + 1}
          aria-multiselectable={onSelect !== undefined}
          onKeyDown={onKeyDown}
          onPaste={(event) => {
            const target = event.target as HTMLElement;
            const [row = at.row, column = at.column] = target.dataset["place"]?.split(":").map(Number) ?? [];
            if (props.sheet === undefined || target.closest("input") !== null) return;
            event.preventDefault();
            pasteAt(event.clipboardData.getData("text/plain"), { row, column });
          }}
          onBlur={({ relatedTarget, currentTarget }) => {
            if (relatedTarget === null || relatedTarget === catcher.current) return;
            if (!currentTarget.contains(relatedTarget)) order.letGo();
          }}
        >
          <thead>
            <HeadingRow
              columns={columns}
              table={table}
              tabStop={tabStop}
              onPlace={(place) => {
                order.letGo();
                setAt(place);
              }}
            />
          </thead>
          <tbody>
            <Gap px={above} columns={columns.length} />
            {shown.map((row, offset) => {
              const index = first + offset;
              const isSelected =
                props.selectedId === row.id || props.selectedIds?.has(row.id) === true || isMarked(index);
              const isOpen = openId === row.id;
              return [
                <tr
                  key={row.id}
                  aria-rowindex={index + 2}
                  aria-selected={onSelect === undefined ? undefined : isSelected}
                  aria-expanded={detail === undefined ? undefined : isOpen}
                  data-selected={isSelected || undefined}
                  data-tone={props.tone?.(row.original)}
                  data-selectable={onSelect !== undefined || detail !== undefined || undefined}
                  // With Shift the browser would mark text, from wherever it was pressed last.
                  onMouseDown={(event) => {
                    if (event.shiftKey) event.preventDefault();
                  }}
                  onClick={(event) => {
                    const isInner = (event.target as HTMLElement).closest("button, a, input, label") !== null;
                    const cell = (event.target as HTMLElement).closest<HTMLTableCellElement>("td,th");
                    const from = event.shiftKey ? (anchor ?? at) : null;
                    setAnchor(from);
                    setAt({ row: index, column: cell?.cellIndex ?? 0 });
                    if (!isInner && from !== null) {
                      moved.current = true;
                      selectRange(from.row, index);
                    }
                    if (isInner || event.shiftKey) return;
                    if ((event.ctrlKey || event.metaKey) && onSelectMany !== undefined)
                      return onSelectMany([row.original], "toggle");
                    if (detail !== undefined) setOpenId(isOpen ? null : row.id);
                    onSelect?.(row.original);
                  }}
                >
                  {columns.map((column, columnIndex) => {
                    const Cell = columnIndex === 0 ? "th" : "td";
                    const isStop = tabStop.row === index && tabStop.column === columnIndex;
                    const writing = sheet.open;
                    const isOpenCell = writing !== null && writing.rowId === row.id && writing.columnId === column.id;
                    return (
                      <Cell
                        key={column.id}
                        role={columnIndex === 0 ? "rowheader" : "gridcell"}
                        {...(columnIndex === 0 ? { scope: "row" } : {})}
                        data-place={`${index}:${columnIndex}`}
                        tabIndex={isStop ? 0 : -1}
                        onFocus={() => setAt({ row: index, column: columnIndex })}
                        onDoubleClick={() => {
                          if (props.sheet !== undefined && !isOpenCell) openCell({ row: index, column: columnIndex });
                        }}
                        data-block={isInBlock(index, columnIndex) || undefined}
                        data-refused={sheet.isRefused(row.id, column.id) || undefined}
                        data-writing={isOpenCell || undefined}
                        className={cellClass(column, isLong)}
                        title={
                          column.title?.(row.original) ??
                          (column.isNumber === true ? undefined : cellText(column, row.original))
                        }
                      >
                        {column.show?.(row.original) ?? <CellWords column={column} row={row.original} />}
                        {isOpenCell && (
                          <CellField
                            label={`${column.heading}, ${cellText(columns[0] ?? column, row.original)}`}
                            text={writing.text}
                            isNumber={column.isNumber === true}
                            isFaulty={sheet.isRefused(row.id, column.id)}
                            choices={column.edit?.choices}
                            onType={sheet.type}
                            onCommit={commit}
                            onCancel={() => {
                              sheet.cancel();
                              moved.current = true;
                            }}
                          />
                        )}
                      </Cell>
                    );
                  })}
                </tr>,
                isOpen && detail !== undefined && (
                  <tr key={`${row.id} detail`} className="data-table-detail">
                    <td colSpan={columns.length}>{detail(row.original)}</td>
                  </tr>
                ),
              ];
            })}
            <Gap px={below} columns={columns.length} />
          </tbody>
        </table>
        {sorted.length === 0 && <div className="data-table-empty">{props.empty}</div>}
      </div>
    </div>
  );
};
