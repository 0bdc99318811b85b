/** Which flights and sorties of the timeline are meant by a box, or by all from one to another. Pure. */
import type { Box } from "../../../app/picture/shape.ts";
import type { ManyRef } from "../../state/app-state.ts";
import type { TimelineItem, TimelineRow } from "../layout/items.ts";

/** null: it is a level, which is not selected with others. */
export const refOf = ({ kind, id }: Pick<TimelineItem, "kind" | "id">): ManyRef | null =>
  kind === "level" ? null : { kind, id };

const refsOf = (items: readonly TimelineItem[]): readonly ManyRef[] => items.flatMap((item) => refOf(item) ?? []);

const meets = (item: Box, box: Box): boolean =>
  item.x <= box.x + box.width &&
  item.x + item.width >= box.x &&
  item.y <= box.y + box.height &&
  item.y + item.height >= box.y;

/** All that the box touches. */
export const refsInBox = (rows: readonly TimelineRow[], box: Box): readonly ManyRef[] =>
  refsOf(rows.flatMap(({ items }) => items.filter((item) => meets(item, box))));

/**
 * All that begins between the beginnings of two, in their lanes and those between. The first comes last in the list: it
 * stays the one that the page turns to, and the next range begins at it again.
 */
export const rangeTo = (rows: readonly TimelineRow[], from: ManyRef, to: ManyRef): readonly ManyRef[] => {
  const placeOf = (ref: ManyRef): number =>
    rows.findIndex(({ items }) => items.some(({ kind, id }) => kind === ref.kind && id === ref.id));
  const places = [placeOf(from), placeOf(to)];
  if (places.includes(-1)) return [to];
  const lanes = rows.slice(Math.min(...places), Math.max(...places) + 1);
  const items = lanes.flatMap((lane) => lane.items);
  const ends = items.filter(({ kind, id }) => [from, to].some((ref) => ref.kind === kind && ref.id === id));
  const fromAt = Math.min(...ends.map((item) => item.fromAt));
  const untilAt = Math.max(...ends.map((item) => item.fromAt));
  const within = refsOf(items.filter((item) => item.fromAt >= fromAt && item.fromAt <= untilAt));
  const others = within.filter(({ kind, id }) => !(kind === from.kind && id === from.id));
  return [...others, from];
};
