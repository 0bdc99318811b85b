/** The axis of time on paper: one row of whole dates along the bottom. */
import type { Plot } from "./panel.ts";
import { line, type Shape, wordsOn } from "./shape.ts";
import type { TimeScale } from "./time-scale.ts";
import { dateTicks } from "./time-ticks.ts";

/** As many dates as fit; `below`: so far under the box. Points. */
export const timeAxis = (plot: Plot, scale: TimeScale, below = 0): readonly Shape[] => [
  line(plot.left, plot.bottom, plot.right, plot.bottom, "hairline", 0.75),
  ...dateTicks(scale).flatMap(({ x, label }) => [
    line(x, plot.bottom, x, plot.bottom + 3, "hairline", 0.75),
    wordsOn(x, plot.bottom + below + 12, label, { size: 7, anchor: "middle" }),
  ]),
];
