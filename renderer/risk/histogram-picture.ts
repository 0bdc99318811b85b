/** A distribution as bars, with the instants by which a share of the runs lies marked and named. */
import type { Histogram } from "../../app/risk/answer.ts";
import { max } from "d3-array";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import { formatDate } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";

const MARGIN = { left: 56, right: 24, top: 46, bottom: 26 } as const;
/** Names of marks nearer than this stand one above the other. */
const NAME_WIDTH = 132;
const NAME_HEIGHT = 14;

export interface Mark {
  readonly at: number;
  readonly words: string;
  /** The plan's own date, told from what the runs say. */
  readonly isPlan?: boolean;
}

interface HistogramPictureInput {
  readonly histogram: Histogram;
  readonly marks: readonly Mark[];
}

export const histogramPicture = (
  { histogram, marks }: HistogramPictureInput,
  { width, height }: { readonly width: number; readonly height: number },
): Picture => {
  const { edges, counts } = histogram;
  const total = counts.reduce((sum, count) => sum + count, 0) || 1;
  const most = (max(counts) ?? 0) / total;
  const [fromAt, untilAt] = [
    Math.min(edges[0] ?? 0, ...marks.map(({ at }) => at)),
    Math.max(edges.at(-1) ?? 1, ...marks.map(({ at }) => at)),
  ];
  const [left, right, top, bottom] = [MARGIN.left, width - MARGIN.right, MARGIN.top, height - MARGIN.bottom];
  const x = (at: number): number => left + ((at - fromAt) / Math.max(1, untilAt - fromAt)) * (right - left);
  const y = (share: number): number => bottom - (share / Math.max(most, 1e-9)) * (bottom - top);
  const bars = counts.map((count, bin): Shape => {
    const [a, b] = [x(edges[bin] ?? fromAt), x(edges[bin + 1] ?? untilAt)];
    return {
      kind: "rect",
      x: a,
      y: y(count / total),
      width: Math.max(0.5, b - a - 0.5),
      height: bottom - y(count / total),
      fill: "accent",
      edge: null,
      alpha: 0.55,
    };
  });
  const decimals = most < 0.2 ? 1 : 0;
  const rules = [0, 0.5, 1].flatMap((part): readonly Shape[] => [
    line(left, y(most * part), right, y(most * part), part === 0 ? "hairline" : "rule"),
    {
      kind: "text",
      x: left - 8,
      y: y(most * part),
      text: `${formatNumber(most * part * 100, decimals)}\u202f%`,
      ink: "ink-soft",
      size: 11,
      anchor: "end",
    },
  ]);
  const dates = [fromAt, (fromAt + untilAt) / 2, untilAt].map((at, place): Shape => ({
    kind: "text",
    x: x(at),
    y: bottom + 14,
    text: formatDate(at),
    ink: "ink-soft",
    size: 11,
    anchor: place === 0 ? "start" : place === 1 ? "middle" : "end",
  }));
  return {
    width,
    height,
    groups: [{ clip: null, shapes: [...rules, ...bars, ...markShapes(marks, x, right, bottom), ...dates] }],
  };
};

/** Lines with their names; names that would touch stand one row higher. */
const markShapes = (
  marks: readonly Mark[],
  x: (at: number) => number,
  right: number,
  bottom: number,
): readonly Shape[] => {
  const lastEnd: number[] = [];
  return marks
    .toSorted((a, b) => a.at - b.at)
    .flatMap(({ at, words, isPlan = false }): readonly Shape[] => {
      const here = x(at);
      const isAtEnd = here + NAME_WIDTH > right;
      const from = isAtEnd ? here - NAME_WIDTH : here;
      const free = lastEnd.findIndex((end) => end <= from);
      const row = free >= 0 ? free : lastEnd.length;
      lastEnd[row] = from + NAME_WIDTH;
      const y = 8 + row * NAME_HEIGHT;
      return [
        line(here, y + 7, here, bottom, isPlan ? "ink-soft" : "ink", 1.25, isPlan ? [4, 3] : undefined),
        {
          kind: "text",
          x: isAtEnd ? here - 4 : here + 4,
          y,
          text: words,
          ink: isPlan ? "ink-soft" : "ink",
          size: 11,
          anchor: isAtEnd ? "end" : "start",
          halo: "sheet",
        },
      ];
    });
};
