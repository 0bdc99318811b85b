/**
 * The items as elements over the canvas, for focus and for those who hear the page: a grid of lanes, one tab stop, only
 * what is on screen or focused. The pointer goes through to the canvas below.
 */
import type { KeyboardEvent } from "react";
import type { TimelineItem, TimelineRow } from "../layout/items.ts";
import type { Stage } from "./stage.ts";

/** Which item has the roving tab stop. */
export interface FocusPlace {
  readonly rowId: string;
  readonly id: string;
}

interface ItemLayerProps {
  readonly stage: Stage;
  readonly label: string;
  /** The element that says in sentences what is shown. */
  readonly summaryId: string;
  readonly focus: FocusPlace | null;
  readonly selectedIds: ReadonlySet<string>;
  readonly onFocus: (place: FocusPlace) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLElement>) => void;
  readonly onBlur: () => void;
  readonly onChoose: (item: TimelineItem) => void;
}

const isSeen = (item: TimelineItem, { frame }: Stage): boolean =>
  item.x + item.width >= frame.scale.left && item.x <= frame.scale.right;

/** The item with the tab stop: the focused one while it is there, else the first on screen. */
export const tabStop = (rows: readonly TimelineRow[], focus: FocusPlace | null, stage: Stage): TimelineItem | null => {
  const items = rows.flatMap((row) => row.items);
  return (
    items.find((item) => item.id === focus?.id && item.rowId === focus.rowId) ??
    items.find((item) => isSeen(item, stage)) ??
    items[0] ??
    null
  );
};

export const ItemLayer = (props: ItemLayerProps) => {
  const { stage, focus, selectedIds } = props;
  const stop = tabStop(stage.rows, focus, stage);
  const shown = stage.rows
    .map((row) => ({ ...row, items: row.items.filter((item) => item === stop || isSeen(item, stage)) }))
    .filter((row) => row.items.length > 0);
  return (
    <div
      role="grid"
      className="item-layer"
      aria-label={props.label}
      aria-multiselectable
      aria-describedby={props.summaryId}
      tabIndex={-1}
      onKeyDown={props.onKeyDown}
      onBlur={props.onBlur}
    >
      {shown.map((row) => (
        // eslint-disable-next-line jsx-a11y/prefer-tag-over-role -- laid over a canvas, not as a table
        <div key={row.id} role="row" aria-label={row.title}>
          {row.items.map((item) => (
            // eslint-disable-next-line jsx-a11y/click-events-have-key-events -- the grid hears the keys
            <div
              key={item.id}
              // eslint-disable-next-line jsx-a11y/prefer-tag-over-role -- laid over a canvas, not as a table
              role="gridcell"
              className="item-cell"
              aria-label={item.words}
              aria-selected={selectedIds.has(item.id)}
              data-item={`${item.rowId} ${item.id}`}
              data-selected={selectedIds.has(item.id) || undefined}
              tabIndex={item === stop ? 0 : -1}
              style={cellBox(item, stage)}
              onFocus={() => props.onFocus({ rowId: item.rowId, id: item.id })}
              onClick={() => props.onChoose(item)}
            />
          ))}
        </div>
      ))}
    </div>
  );
};

/** The part of the item on screen; never smaller than can be seen. */
const cellBox = (item: TimelineItem, { frame }: Stage) => {
  const from = Math.max(item.x, frame.scale.left);
  const until = Math.min(item.x + item.width, frame.scale.right);
  return { left: from, top: item.y, width: Math.max(until - from, 8), height: item.height };
};
