/** An outcome along one input: the middle of the points, the band where most of them lie, today, and where the plan turns. */
import type { CurvePoint } from "../../app/study/slices.ts";
import { line, type Picture, type Shape } from "../../app/picture/shape.ts";
import type { MassUnit } from "../format/mass.ts";
import { type Axis, type AxisWords, makeAxis } from "./axis.ts";

export interface CurveInput {
  readonly across: AxisWords;
  readonly up: AxisWords;
  readonly points: readonly CurvePoint[];
  /** Value of the plan as it is; null: nowhere in one place. */
  readonly today: number | null;
  /** Between these neighbours it begins or ceases to hold. */
  readonly turns: readonly { readonly below: number; readonly above: number }[];
  /** The point that is looked at; null: none. */
  readonly chosen: number | null;
  readonly unit: MassUnit;
}

export const CURVE_HEIGHT = 300;
const BOX = { left: 64, top: 26, right: 20, bottom: 46 };

interface CurveLayout {
  readonly x: Axis;
  readonly y: Axis;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const reachOf = (values: readonly number[]): readonly [number, number] => {
  const [least, most] = values.reduce(
    ([a, b], value) => [Math.min(a, value), Math.max(b, value)],
    [Infinity, -Infinity],
  );
  return least <= most ? [least, most] : [0, 1];
};

/** With a little room above and below, and to nought where that is near. */
const roomy = ([least, most]: readonly [number, number]): readonly [number, number] => {
  const span = most > least ? most - least : Math.max(1, Math.abs(most) * 0.1);
  const low = least >= 0 && least < span ? 0 : least - span * 0.06;
  return [low, most + span * 0.06];
};

const curveLayout = ({ across, up, points, today, unit }: CurveInput, { width, height }: Size): CurveLayout => {
  const xs = reachOf([...points.map(({ x }) => x), ...(today === null ? [] : [today])]);
  return {
    x: makeAxis(across, xs, [BOX.left, width - BOX.right], unit, 80),
    y: makeAxis(
      up,
      roomy(reachOf(points.flatMap(({ low, middle, high }) => [low, middle, high]))),
      [height - BOX.bottom, BOX.top],
      unit,
      40,
    ),
  };
};

/** The value of the input that was pointed at. */
export const curveValueAt = (input: CurveInput, size: Size, x: number): number => curveLayout(input, size).x.of(x);

const words = (x: number, y: number, text: string, anchor: "start" | "middle" | "end", isStrong = false): Shape => ({
  kind: "text",
  x,
  y,
  text,
  ink: isStrong ? "ink" : "ink-soft",
  size: 11,
  anchor,
  halo: "sheet",
});

export const curvePicture = (input: CurveInput, size: Size): Picture => {
  const { points, today, turns, chosen } = input;
  const { width, height } = size;
  const { x, y } = curveLayout(input, size);
  const [left, right, top, bottom] = [BOX.left, width - BOX.right, BOX.top, height - BOX.bottom];
  const grid = [
    ...y.ticks.flatMap((tick) => [
      line(left, tick.at, right, tick.at, "rule"),
      words(left - 8, tick.at, tick.label, "end"),
    ]),
    ...x.ticks.flatMap((tick) => [
      line(tick.at, bottom, tick.at, bottom + 4, "hairline"),
      words(tick.at, bottom + 13, tick.label, "middle"),
    ]),
    line(left, bottom, right, bottom, "hairline"),
    words(left, 9, y.title, "start", true),
    words(right, bottom + 32, x.title, "end", true),
  ];
  const isBand = points.some(({ low, high }) => high > low);
  const band: readonly Shape[] = isBand
    ? [
        {
          kind: "area",
          points: [
            ...points.flatMap((one) => [x.at(one.x), y.at(one.high)]),
            ...points.toReversed().flatMap((one) => [x.at(one.x), y.at(one.low)]),
          ],
          ink: "accent",
          texture: "flat",
          alpha: 0.18,
        },
      ]
    : [];
  const curve: readonly Shape[] = [
    { kind: "path", points: points.flatMap((one) => [x.at(one.x), y.at(one.middle)]), ink: "accent", width: 2 },
    ...(points.length <= 60
      ? points.map((one): Shape => ({
          kind: "dot",
          x: x.at(one.x),
          y: y.at(one.middle),
          radius: 3,
          fill: "sheet",
          edge: "accent",
        }))
      : []),
  ];
  const marks: Shape[] = [];
  for (const { below, above } of turns) {
    const [a, b] = [x.at(below), x.at(above)];
    marks.push(
      {
        kind: "area",
        points: [a, top, b, top, b, bottom, a, bottom],
        ink: "status-short",
        texture: "hatched",
        alpha: 1,
      },
      line((a + b) / 2, top, (a + b) / 2, bottom, "status-short", 1.5),
    );
  }
  if (today !== null)
    marks.push(
      line(x.at(today), top, x.at(today), bottom, "ink", 1, [4, 3]),
      words(Math.min(right - 20, Math.max(left + 20, x.at(today))), top - 7, "today", "middle", true),
    );
  const near = points.find((one) => one.x === chosen);
  if (near !== undefined)
    marks.push({ kind: "dot", x: x.at(near.x), y: y.at(near.middle), radius: 5, fill: "accent", edge: "ink" });
  return { width, height, groups: [{ clip: null, shapes: [...grid, ...band, ...curve, ...marks] }] };
};
