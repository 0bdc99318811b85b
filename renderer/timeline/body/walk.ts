/** Where the arrows lead inside the timeline. */
import type { TimelineItem, TimelineRow } from "../layout/items.ts";

const middle = (item: TimelineItem): number => (item.fromAt + item.untilAt) / 2;

/** The item of a row that lies nearest in time to another. */
export const nearest = (row: TimelineRow, item: TimelineItem): TimelineItem | null => {
  let best: TimelineItem | null = null;
  for (const candidate of row.items)
    if (best === null || Math.abs(middle(candidate) - middle(item)) < Math.abs(middle(best) - middle(item)))
      best = candidate;
  return best;
};

/** The item to which a key leads from another; null: it leads nowhere. */
export const walk = (rows: readonly TimelineRow[], from: TimelineItem, key: string): TimelineItem | null => {
  const filled = rows.filter((row) => row.items.length > 0);
  const rowIndex = filled.findIndex((row) => row.id === from.rowId);
  const row = filled[rowIndex];
  if (row === undefined) return null;
  const index = row.items.findIndex((item) => item.id === from.id);
  switch (key) {
    case "ArrowLeft":
      return row.items[index - 1] ?? null;
    case "ArrowRight":
      return row.items[index + 1] ?? null;
    case "Home":
      return row.items[0] ?? null;
    case "End":
      return row.items.at(-1) ?? null;
    case "ArrowUp":
    case "ArrowDown": {
      const other = filled[rowIndex + (key === "ArrowUp" ? -1 : 1)];
      return other === undefined ? null : nearest(other, from);
    }
    default:
      return null;
  }
};
