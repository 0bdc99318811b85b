/** A study's outcome along one input: the line, its band, the plan as it is, and between which values it turns. */
import { scaleLinear } from "d3-scale";
import { formatNumber } from "../../format/number.ts";
import { capitalised } from "../../words/counted.ts";
import { round } from "./axis.ts";
import { type Picture, type Shape, pathShape, textShape } from "./picture.ts";

interface AxisWords {
  readonly words: string;
  /** "": a number. */
  readonly unit: string;
}

export interface StudyCurve {
  readonly across: AxisWords;
  readonly up: AxisWords;
  /** Rising; one at least. */
  readonly points: readonly {
    readonly x: number;
    readonly low: number;
    readonly middle: number;
    readonly high: number;
  }[];
  /** The plan as it is; null: nowhere in one place. */
  readonly today: number | null;
  /** Between these neighbouring values the plan begins or ceases to hold. */
  readonly turns: readonly { readonly below: number; readonly above: number }[];
}

const WIDTH = 500;
const BOX = { left: 48, top: 20, right: WIDTH - 14, bottom: 150 };
/** Below the box: figures and words, and what is shaded. */
const FOOT = 28;
const FOOT_SHADED = 40;
/** Points are marked as long as they stand apart. */
const MAX_MARKS = 60;

const withUnit = ({ words, unit }: AxisWords): string => capitalised(unit === "" ? words : `${words}, ${unit}`);

const decimalsOf = (ticks: readonly number[]): number =>
  [0, 1, 2, 3, 4].find((n) => ticks.every((tick) => Math.abs(tick - Number(tick.toFixed(n))) < 1e-9)) ?? 5;

/** From the least to the most, with nought where that is near; never of no width. */
const reach = (values: readonly number[], toNought: boolean): readonly [number, number] => {
  const [least, most] = values.reduce(
    ([a, b], value) => [Math.min(a, value), Math.max(b, value)],
    [Infinity, -Infinity],
  );
  const low = toNought && least > 0 ? 0 : least;
  return most > low ? [low, most] : [low - 0.5, low + 0.5];
};

const path = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y], n) => `${n === 0 ? "M" : "L"}${round(x)},${round(y)}`).join("");

export const studyCurvePicture = ({ across, up, points, today, turns }: StudyCurve): Picture => {
  const x = scaleLinear(
    reach(
      points.map((point) => point.x),
      false,
    ),
    [BOX.left, BOX.right],
  );
  const y = scaleLinear(
    reach(
      points.flatMap(({ low, middle, high }) => [low, middle, high]),
      true,
    ),
    [BOX.bottom, BOX.top],
  ).nice(4);
  const [xTicks, yTicks] = [x.ticks(8), y.ticks(4)];
  const band = [
    ...points.map((point) => [x(point.x), y(point.high)] as const),
    ...points.toReversed().map((point) => [x(point.x), y(point.low)] as const),
  ];
  const isBanded = points.some(({ low, high }) => high > low);
  const [from = 0, to = 0] = x.domain();
  const isToday = today !== null && today >= from && today <= to;
  const todayAt = round(x(today ?? 0));
  const marks = points.length > MAX_MARKS ? [] : points;
  return {
    width: WIDTH,
    height: BOX.bottom + (turns.length === 0 ? FOOT : FOOT_SHADED),
    shapes: [
      ...turns.map(({ below, above }) =>
        pathShape(`M${round(x(below))},${BOX.top}H${round(x(above))}V${BOX.bottom}H${round(x(below))}Z`, {
          fill: "warning",
          fillOpacity: 0.14,
        }),
      ),
      textShape(BOX.left, BOX.top - 9, withUnit(up), { size: 7, isBold: true }),
      ...yTicks.flatMap((tick): readonly Shape[] => [
        pathShape(`M${BOX.left},${round(y(tick))}H${BOX.right}`, { stroke: "hairline", width: 0.35 }),
        textShape(BOX.left - 5, round(y(tick)) + 2.5, formatNumber(tick, decimalsOf(yTicks)), {
          size: 7,
          ink: "quiet",
          anchor: "end",
        }),
      ]),
      ...xTicks.map((tick) =>
        textShape(round(x(tick)), BOX.bottom + 11, formatNumber(tick, decimalsOf(xTicks)), {
          size: 7,
          ink: "quiet",
          anchor: "middle",
        }),
      ),
      textShape(BOX.right, BOX.bottom + 22, withUnit(across), { size: 7, anchor: "end" }),
      ...(isBanded ? [pathShape(`${path(band)}Z`, { fill: "first", fillOpacity: 0.18 })] : []),
      pathShape(path(points.map((point) => [x(point.x), y(point.middle)])), { stroke: "first", width: 1 }),
      ...marks.map((point) =>
        pathShape(`M${round(x(point.x)) - 1.5},${round(y(point.middle)) - 1.5}h3v3h-3Z`, { fill: "first" }),
      ),
      ...(isToday
        ? [
            pathShape(`M${todayAt},${BOX.top}V${BOX.bottom}`, { stroke: "text", width: 0.75, dash: [2, 2] }),
            textShape(todayAt, BOX.top - 3, "the plan as it is", {
              size: 7,
              anchor: todayAt > WIDTH - 80 ? "end" : todayAt < BOX.left + 30 ? "start" : "middle",
            }),
          ]
        : []),
      ...(turns.length === 0
        ? []
        : [
            textShape(
              BOX.left,
              BOX.bottom + 33,
              "Shaded: between these neighbouring values the plan begins or ceases to hold.",
              {
                size: 7,
                ink: "quiet",
              },
            ),
          ]),
    ],
  };
};
