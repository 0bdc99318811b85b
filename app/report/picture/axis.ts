/** Axes of a report's pictures: hairlines at the edge, few ticks, light rules. */
import { scaleLinear, scaleUtc } from "d3-scale";
import { NARROW_SPACE, formatNumber } from "../../format/number.ts";
import { formatDate } from "../../format/time.ts";
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

export type TimeScale = ReturnType<typeof timeScale>;

/** Value to y, from 0 to at least `most`. */
export const valueScale = (plot: Plot, most: number, ticks = 4) =>
  // A low box has no room to spare above the highest.
  scaleLinear()
    .domain([0, most > 0 ? most * (ticks < 3 ? 1.04 : 1) : 1])
    .nice(ticks < 3 ? 100 : ticks)
    .range([plot.bottom, plot.top]);

/** Points that a date takes with the room beside it. */
const DATE_ROOM = 38;
const MONTH_STEPS = [1, 2, 3, 6, 12, 24, 60, 120];
const MONTH_MS = 30.44 * 86_400_000;

/** As many dates as fit: whole months where the span is long, else what the scale offers. */
const datesOf = (plot: Plot, scale: TimeScale): readonly Date[] => {
  const most = Math.max(2, Math.floor((plot.right - plot.left) / DATE_ROOM));
  const [from = new Date(0), until = new Date(0)] = scale.domain();
  const months = (until.getTime() - from.getTime()) / MONTH_MS;
  if (months < 3) return scale.ticks(Math.max(2, Math.floor(most * 0.7)));
  const step = MONTH_STEPS.find((each) => months / each <= most) ?? 240;
  // Counted from January, so that a year's first month is among them.
  const first = from.getUTCFullYear() * 12 + from.getUTCMonth();
  return Array.from({ length: Math.ceil(months) + 2 }, (_, month) => first + month)
    .filter((month) => month % step === 0)
    .map((month) => new Date(Date.UTC(Math.floor(month / 12), month % 12)))
    .filter((at) => at >= from && at <= until);
};

/** Dates along the bottom: as many as fit; `below`: so far under the box. */
export const timeAxis = (plot: Plot, scale: TimeScale, below = 0): readonly Shape[] => {
  const ticks = datesOf(plot, scale);
  const edge = pathShape(`M${plot.left},${plot.bottom}H${plot.right}`, { stroke: "hairline", width: 0.75 });
  return [
    edge,
    ...ticks.flatMap((tick) => {
      const x = round(scale(tick));
      return [
        pathShape(`M${x},${plot.bottom}v3`, { stroke: "hairline", width: 0.75 }),
        textShape(x, plot.bottom + below + 12, formatDate(tick.getTime()).slice(0, tick.getUTCDate() === 1 ? 7 : 10), {
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
  { perUnit, ticks: about = 4 }: { readonly perUnit: number; readonly ticks?: number },
): readonly Shape[] => {
  const ticks = scale.ticks(about);
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
