/** What matters to an outcome: for each input the share of the variance with all it does, and alone, with intervals. */
import type { ColumnRanking } from "../../app/study/study-answer.ts";
import type { Interval } from "../../app/study/indices.ts";
import type { Ink } from "../../app/picture/ink.ts";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import { formatPercent } from "../format/number.ts";

const ROW = 40;
const HEAD = 24;
const LETTER = 6.6;

export const rankHeight = (count: number): number => HEAD + Math.max(1, count) * ROW + 6;

const cut = (text: string, room: number): string => {
  const most = Math.max(4, Math.floor(room / LETTER));
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
};

export const rankPicture = (
  ranking: ColumnRanking,
  names: readonly string[],
  { width, height }: { readonly width: number; readonly height: number },
): Picture => {
  const left = Math.min(300, Math.round(width * 0.36));
  const right = width - 56;
  const most = Math.max(1, ...ranking.inputs.map(({ totalInterval }) => totalInterval.high));
  const x = (share: number): number => left + (Math.max(0, share) / most) * (right - left);
  const ticks = [0, 0.25, 0.5, 0.75, 1].flatMap((share): readonly Shape[] => [
    line(x(share), HEAD, x(share), height - 6, share === 0 ? "hairline" : "rule"),
    {
      kind: "text",
      x: x(share),
      y: 10,
      text: formatPercent(share * 100, 0),
      ink: "ink-soft",
      size: 11,
      anchor: "middle",
    },
  ]);
  const bar = (
    value: number,
    { low, high }: Interval,
    y: number,
    look: { readonly ink: Ink; readonly texture: "flat" | "hatched" },
  ): readonly Shape[] => [
    {
      kind: "area",
      points: [x(0), y - 5, x(value), y - 5, x(value), y + 5, x(0), y + 5],
      ink: look.ink,
      texture: look.texture,
      alpha: look.texture === "flat" ? 0.6 : 1,
    },
    { kind: "rect", x: x(0), y: y - 5, width: Math.max(0.5, x(value) - x(0)), height: 10, fill: null, edge: look.ink },
    line(x(low), y, x(high), y, "ink", 1.25),
    line(x(low), y - 3, x(low), y + 3, "ink", 1.25),
    line(x(high), y - 3, x(high), y + 3, "ink", 1.25),
  ];
  const rows = ranking.inputs.flatMap((row, place): readonly Shape[] => {
    const middle = HEAD + place * ROW + ROW / 2;
    return [
      {
        kind: "text",
        x: left - 10,
        y: middle,
        text: cut(names[row.input] ?? "", left - 14),
        ink: "ink",
        size: 12,
        anchor: "end",
      },
      ...bar(row.total, row.totalInterval, middle - 7, { ink: "accent", texture: "flat" }),
      ...bar(row.first, row.firstInterval, middle + 7, { ink: "ink-soft", texture: "hatched" }),
    ];
  });
  return { width, height, groups: [{ clip: null, shapes: [...ticks, ...rows] }] };
};
