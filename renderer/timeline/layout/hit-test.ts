/** What is under the pointer, and by which part it would be taken. */
import type { TimelineItem, TimelineRow } from "./items.ts";

/** Which part of a bar the pointer has. A flight's arrival is its middle edge, its berth's end the last. */
export type Grip = "body" | "start" | "arrival" | "end";

export interface Hit {
  readonly item: TimelineItem;
  readonly grip: Grip;
}

/** Half the width of a bar's end, pixels; a bar shorter than four of these has a body only. */
const REACH = 6;
/** Extra room around small bars, so that they can be touched. */
const SLACK = 5;

const gripOf = (item: TimelineItem, x: number): Grip => {
  const right = item.x + item.width;
  if (item.innerX === null) {
    if (item.width < 4 * REACH) return "body";
    return x <= item.x + REACH ? "start" : x >= right - REACH ? "end" : "body";
  }
  if (x <= item.x + REACH && item.innerX - item.x >= 3 * REACH) return "start";
  if (x >= right - REACH && right - item.innerX >= 2 * REACH) return "end";
  if (Math.abs(x - item.innerX) <= REACH && item.innerX - item.x >= 4 * REACH && right - item.innerX >= 2 * REACH)
    return "arrival";
  return "body";
};

/** The item under a point of the body, the nearest first; charts are not hit, they are panned. */
export const hitTest = (rows: readonly TimelineRow[], x: number, y: number): Hit | null => {
  let best: TimelineItem | null = null;
  let distance = SLACK;
  for (const row of rows)
    for (const item of row.items) {
      if (item.kind === "level" || y < item.y || y > item.y + item.height) continue;
      const away = Math.max(item.x - x, x - (item.x + item.width), 0);
      if (away < distance || (away === 0 && best === null)) {
        best = item;
        distance = away;
      }
    }
  return best === null ? null : { item: best, grip: gripOf(best, x) };
};
