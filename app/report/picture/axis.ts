/** Axes of a report's pictures: hairlines at the edge, few ticks, light rules. */
import { scaleLinear, scaleUtc } from "d3-scale";
import { NARROW_SPACE, formatNumber } from "../../format/number.ts";
import { formatDate } from "../../ledger/time.ts";
import { type Shape, pathShape, textShape } from "./picture.ts";

/** The box of the data inside a picture, points. */
export interface Plot {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Time to x. */
export const timeScale = (plot: Plot, fromAt: number, untilAt: number) =>
  scaleUtc().domain([fromAt, untilAt]).range([plot.left, plot.right]);

/** Value to y, from 0 to at least `most`. */
export const valueScale = (plot: Plot, most: number) =>
  scaleLinear()
    .domain([0, most > 0 ? most : 1])
    .nice(4)
    .range([plot.bottom, plot.top]);

/** Dates along the bottom: as many as fit. */
export const timeAxis = (plot: Plot, scale: ReturnType<typeof timeScale>): readonly Shape[] => {
  const ticks = scale.ticks(Math.max(2, Math.floor((plot.right - plot.left) / 80)));
  const edge = pathShape(`M${plot.left},${plot.bottom}H${plot.right}`, { stroke: "hairline", width: 0.75 });
  return [
    edge,
    ...ticks.flatMap((tick) => {
      const x = round(scale(tick));
      return [
        pathShape(`M${x},${plot.bottom}v3`, { stroke: "hairline", width: 0.75 }),
        textShape(x, plot.bottom + 12, formatDate(tick.getTime()).slice(0, tick.getUTCDate() === 1 ? 7 : 10), {
          size: 7,
          ink: "quiet",
          anchor: "middle",
        }),
      ];
    }),
  ];
};

/** Values along the left with their unit on the topmost. */
export const valueAxis = (
  plot: Plot,
  scale: ReturnType<typeof valueScale>,
  unit: string,
  perUnit: number,
): readonly Shape[] => {
  const ticks = scale.ticks(4);
  const last = ticks.at(-1);
  const decimals = ticks.some((tick) => !Number.isInteger(tick / perUnit)) ? 1 : 0;
  return ticks.flatMap((tick) => {
    const y = round(scale(tick));
    const figure = formatNumber(tick / perUnit, decimals);
    return [
      pathShape(`M${plot.left},${y}H${plot.right}`, { stroke: "hairline", width: 0.35 }),
      textShape(plot.left - 5, y + 2.5, tick === last ? `${figure}${NARROW_SPACE}${unit}` : figure, {
        size: 7,
        ink: "quiet",
        anchor: "end",
      }),
    ];
  });
};

/** Hundredths of a point are enough for paper, and keep the bytes the same on every machine. */
export const round = (value: number): number => Math.round(value * 100) / 100;
