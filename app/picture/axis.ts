/** Axes of pictures on paper: hairlines at the edge, few ticks, light rules. */
import { scaleLinear } from "d3-scale";
import { formatNumber, withUnit } from "../format/number.ts";
import type { Plot } from "./panel.ts";
import { line, type Shape, wordsOn } from "./shape.ts";
import type { TimeScale } from "./time-scale.ts";
import { dateTicks } from "./time-ticks.ts";

/** Value to y, from 0 to at least `most`. */
export const valueScale = (plot: Plot, most: number, ticks = 4) =>
  scaleLinear()
    .domain([0, most > 0 ? most : 1])
    .nice(ticks)
    .range([plot.bottom, plot.top]);

/** Dates along the bottom: as many as fit; `below`: so far under the box. */
export const timeAxis = (plot: Plot, scale: TimeScale, below = 0): readonly Shape[] => [
  line(plot.left, plot.bottom, plot.right, plot.bottom, "hairline", 0.75),
  ...dateTicks(scale).flatMap(({ x, label }) => [
    line(x, plot.bottom, x, plot.bottom + 3, "hairline", 0.75),
    wordsOn(x, plot.bottom + below + 12, label, { size: 7, anchor: "middle" }),
  ]),
];

/** Values along the left with their unit on the topmost. */
export const valueAxis = (
  plot: Plot,
  scale: ReturnType<typeof valueScale>,
  unit: string,
  { perUnit, ticks: about = 4 }: { readonly perUnit: number; readonly ticks?: number },
): readonly Shape[] => {
  const ticks = scale.ticks(about);
  const last = ticks.at(-1);
  const decimals = ticks.some((tick) => !Number.isInteger(tick / perUnit)) ? 1 : 0;
  return ticks.flatMap((tick) => {
    const y = scale(tick);
    const figure = formatNumber(tick / perUnit, decimals);
    return [
      line(plot.left, y, plot.right, y, "rule", 0.35),
      wordsOn(plot.left - 5, y + 2.5, tick === last ? withUnit(figure, unit) : figure, { size: 7, anchor: "end" }),
    ];
  });
};
