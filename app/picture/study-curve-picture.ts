/** A study's outcome along one input: the line, its band, the plan as it is, and between which values it turns. */
import { scaleLinear } from "d3-scale";
import { formatNumber } from "../format/number.ts";
import { capitalised } from "../words/counted.ts";
import { flatArea, line, type Picture, type Shape, wordsOn } from "./shape.ts";

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
  const todayAt = x(today ?? 0);
  const marks = points.length > MAX_MARKS ? [] : points;
  return {
    width: WIDTH,
    height: BOX.bottom + (turns.length === 0 ? FOOT : FOOT_SHADED),
    groups: [
      {
        clip: null,
        shapes: [
          ...turns.map(({ below, above }) =>
            flatArea(
              [x(below), BOX.top, x(above), BOX.top, x(above), BOX.bottom, x(below), BOX.bottom],
              "status-short",
              0.14,
            ),
          ),
          wordsOn(BOX.left, BOX.top - 9, withUnit(up), { size: 7, ink: "ink", isBold: true }),
          ...yTicks.flatMap((tick): readonly Shape[] => [
            line(BOX.left, y(tick), BOX.right, y(tick), "rule", 0.35),
            wordsOn(BOX.left - 5, y(tick) + 2.5, formatNumber(tick, decimalsOf(yTicks)), {
              size: 7,
              ink: "ink-soft",
              anchor: "end",
            }),
          ]),
          ...xTicks.map((tick) =>
            wordsOn(x(tick), BOX.bottom + 11, formatNumber(tick, decimalsOf(xTicks)), {
              size: 7,
              ink: "ink-soft",
              anchor: "middle",
            }),
          ),
          wordsOn(BOX.right, BOX.bottom + 22, withUnit(across), { size: 7, ink: "ink", anchor: "end" }),
          ...(isBanded ? [flatArea(band.flat(), "accent", 0.18)] : []),
          { kind: "path", points: points.flatMap((point) => [x(point.x), y(point.middle)]), ink: "accent", width: 1 },
          ...marks.map((point): Shape => ({
            kind: "rect",
            x: x(point.x) - 1.5,
            y: y(point.middle) - 1.5,
            width: 3,
            height: 3,
            fill: "accent",
            edge: null,
          })),
          ...(isToday
            ? [
                line(todayAt, BOX.top, todayAt, BOX.bottom, "ink", 0.75, [2, 2]),
                wordsOn(todayAt, BOX.top - 3, "the plan as it is", {
                  size: 7,
                  ink: "ink",
                  anchor: todayAt > WIDTH - 80 ? "end" : todayAt < BOX.left + 30 ? "start" : "middle",
                }),
              ]
            : []),
          ...(turns.length === 0
            ? []
            : [
                wordsOn(
                  BOX.left,
                  BOX.bottom + 33,
                  "Shaded: between these neighbouring values the plan begins or ceases to hold.",
                  {
                    size: 7,
                    ink: "ink-soft",
                  },
                ),
              ]),
        ],
      },
    ],
  };
};
