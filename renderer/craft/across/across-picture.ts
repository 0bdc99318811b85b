/** Kilograms from the ground over the number of sorties, two ways against each other, and what moves their break-even. */
import { ticks } from "d3-array";
import type { BreakEven, Moved } from "../../../app/ways/break-even.ts";
import { overCampaign, type WayLifted } from "../../../app/ways/lifted.ts";
import type { Ink } from "../../../app/picture/ink.ts";
import { line, type Picture, type Shape } from "../../../app/picture/shape.ts";
import { formatNumber } from "../../format/number.ts";

const MARGIN = { left: 52, right: 16, top: 24, foot: 40 } as const;
const ROW = 18;
/** Room at the left for the names of the inputs, pixels. */
const NAMES = 190;
/** Room at both ends of a bar for its numbers, pixels. */
const BESIDE = 44;

export interface AcrossShown {
  readonly a: WayLifted;
  readonly b: WayLifted;
  readonly found: BreakEven;
  /** At most so many as are drawn. */
  readonly moved: readonly Moved[];
  /** Of the campaign. */
  readonly sorties: number;
}

/** How many inputs are drawn. */
export const MOVED_SHOWN = 5;
/** Beyond it the picture would be all break-even and no beginning. */
const MOST_SORTIES = 60;

/** Sorties that the picture runs to: past the break-even and the campaign. */
const lastSortie = ({ found, sorties }: AcrossShown): number =>
  Math.min(MOST_SORTIES, Math.max(4, sorties, found.kind === "at" ? Math.ceil(found.sorties * 1.6) : 0));

const text = (x: number, y: number, words: string, more: Partial<Extract<Shape, { kind: "text" }>> = {}): Shape => ({
  kind: "text",
  x,
  y,
  text: words,
  ink: "ink-soft",
  size: 11,
  anchor: "middle",
  ...more,
});

const sums = (shown: AcrossShown, width: number, bottom: number): Shape[] => {
  const { a, b, found, sorties } = shown;
  const [left, right, top] = [MARGIN.left, width - MARGIN.right, MARGIN.top];
  const last = lastSortie(shown);
  const tonnes = (way: WayLifted, n: number): number => overCampaign(way, n).totalKg / 1000;
  const most = Math.max(tonnes(a, last), tonnes(b, last)) * 1.04;
  const x = (n: number): number => left + ((right - left) * (n - 1)) / Math.max(1, last - 1);
  const y = (t: number): number => bottom - ((bottom - top) * t) / most;
  const shapes: Shape[] = [text(left, top - 10, "from the ground, t", { ink: "ink", size: 12, anchor: "start" })];
  for (const tick of ticks(0, most, 4)) {
    shapes.push(line(left, y(tick), right, y(tick), "rule"));
    shapes.push(text(left - 6, y(tick), formatNumber(tick), { anchor: "end" }));
  }
  shapes.push(line(left, bottom, right, bottom, "hairline"), line(left, top, left, bottom, "hairline"));
  for (const tick of ticks(1, last, 8).filter(Number.isInteger)) {
    shapes.push(line(x(tick), bottom, x(tick), bottom + 4, "hairline"));
    shapes.push(text(x(tick), bottom + 13, formatNumber(tick)));
  }
  shapes.push(text((left + right) / 2, bottom + 29, "sorties"));
  const steps = Array.from({ length: last }, (_, i) => i + 1);
  const ways: readonly (readonly [WayLifted, Ink])[] = [
    [a, "accent"],
    [b, "ink"],
  ];
  for (const [way, ink] of ways) {
    shapes.push({ kind: "path", points: steps.flatMap((n) => [x(n), y(tonnes(way, n))]), ink, width: 1.5 });
  }
  // Named along the left of the panel, in the order in which the lines end, so that the names never lie on each other.
  const order = ways.toSorted(([p], [q]) => tonnes(q, last) - tonnes(p, last));
  order.forEach(([way, ink], i) =>
    shapes.push(text(left + 10, top + 10 + i * 16, way.way.name, { ink, size: 12, anchor: "start", halo: "sheet" })),
  );
  if (sorties <= last) {
    shapes.push(line(x(sorties), top, x(sorties), bottom, "rule"));
    shapes.push(text(x(sorties), top - 10, "campaign", { anchor: sorties > last / 2 ? "end" : "middle" }));
  }
  if (found.kind === "at" && found.sorties <= last) {
    const at = x(found.sorties);
    shapes.push(line(at, y(tonnes(a, found.sorties)), at, bottom, "ink-soft"));
    const isRight = at > (left + right) / 2;
    shapes.push(
      text(at + (isRight ? -6 : 6), bottom - 10, `break-even ${formatNumber(found.sorties, 1)}`, {
        ink: "ink",
        size: 12,
        anchor: isRight ? "end" : "start",
        halo: "sheet",
      }),
    );
  }
  return shapes;
};

/** One row an input: from the break-even with a little less of it to the one with a little more. */
const inputs = ({ found, moved }: AcrossShown, width: number, top: number): Shape[] => {
  if (found.kind !== "at" || moved.length === 0) return [];
  const rows = moved.slice(0, MOVED_SHOWN);
  const [left, right] = [NAMES + BESIDE, width - MARGIN.right - BESIDE];
  const ends = rows.flatMap(({ withLess, withMore }) => [withLess, withMore].filter((end) => typeof end === "number"));
  const least = Math.min(found.sorties, ...ends);
  const most = Math.min(MOST_SORTIES, Math.max(found.sorties * 1.05, ...ends));
  const x = (n: number): number => left + ((right - left) * (Math.min(n, most) - least)) / Math.max(1e-9, most - least);
  const bottom = top + rows.length * ROW;
  const shapes: Shape[] = [
    text(12, top - 12, "break-even with 2 % less and 2 % more of", { ink: "ink", size: 12, anchor: "start" }),
    line(x(found.sorties), top - 4, x(found.sorties), bottom, "hairline"),
  ];
  rows.forEach(({ name, withLess, withMore }, i) => {
    const y = top + (i + 0.5) * ROW;
    const place = (end: Moved["withLess"]): number =>
      typeof end === "number" ? x(end) : end === null ? right : x(found.sorties);
    const [less, more] = [place(withLess), place(withMore)];
    shapes.push(text(NAMES - 8, y, name, { anchor: "end" }));
    shapes.push({ kind: "path", points: [less, y, more, y], ink: i === 0 ? "accent" : "ink-soft", width: 6 });
    const say = (end: Moved["withLess"]): string =>
      end === null ? "none" : end === "not flown" ? "–" : formatNumber(end, 1);
    const isLessRight = less > more;
    shapes.push(
      text(less + (isLessRight ? 6 : -6), y, `− ${say(withLess)}`, {
        size: 11,
        anchor: isLessRight ? "start" : "end",
        halo: "sheet",
      }),
    );
    shapes.push(
      text(more + (isLessRight ? -6 : 6), y, `+ ${say(withMore)}`, {
        size: 11,
        anchor: isLessRight ? "end" : "start",
        halo: "sheet",
      }),
    );
  });
  return shapes;
};

export const acrossPicture = (
  shown: AcrossShown,
  size: { readonly width: number; readonly height: number },
): Picture => {
  const rows = shown.found.kind === "at" ? Math.min(MOVED_SHOWN, shown.moved.length) : 0;
  const below = rows === 0 ? 0 : rows * ROW + 30;
  const bottom = size.height - MARGIN.foot - below;
  const top = size.height - rows * ROW - 4;
  return {
    ...size,
    groups: [{ clip: null, shapes: [...sums(shown, size.width, bottom), ...inputs(shown, size.width, top)] }],
  };
};
