/** A study's outcome along one input: the middle of the points, the band where most lie, the plan as it is, where it turns. */
import type { MassUnit } from "../format/mass.ts";
import type { CurvePoint } from "../study/slices.ts";
import type { Look, Size } from "./look.ts";
import { type Axis, type AxisWords, makeAxis, reachOf } from "./number-axis.ts";
import { footEdge, footName, footNotes, headName, type Plot, plotOf, rulesAcross, ticksUnder } from "./panel.ts";
import { flatArea, line, type Picture, type Shape, words } from "./shape.ts";

export interface StudyCurve {
  readonly across: AxisWords;
  readonly up: AxisWords;
  /** Rising. */
  readonly points: readonly CurvePoint[];
  /** Value of the plan as it is; null: nowhere in one place. */
  readonly today: number | null;
  /** Between these neighbours the plan begins or ceases to hold. */
  readonly turns: readonly { readonly below: number; readonly above: number }[];
  readonly massUnit: MassUnit;
  /** What stands under the picture, a line each; on screen it stands beside it. */
  readonly notes: readonly string[];
}

const TODAY = "the plan as it is";
/** Points are marked as long as they stand apart. */
const MAX_MARKS = 60;

/** With a little room above and below, and to nought where that is near. */
const roomy = ([least, most]: readonly [number, number]): readonly [number, number] => {
  const span = most > least ? most - least : Math.max(1, Math.abs(most) * 0.1);
  const low = least >= 0 && least < span ? 0 : least - span * 0.06;
  return [low, most + span * 0.06];
};

export interface StudyCurveAxes {
  readonly plot: Plot;
  readonly x: Axis;
  readonly y: Axis;
}

/** Where the values of a curve lie: for what is laid over the picture, and for what was pointed at. */
export const studyCurveAxes = (
  { across, up, points, today, massUnit, notes }: StudyCurve,
  size: Size,
  look: Look,
): StudyCurveAxes => {
  const plot = plotOf(size, look, { foot: look.margin.foot + notes.length * look.note });
  const xs = reachOf([...points.map(({ x }) => x), ...(today === null ? [] : [today])]) ?? [0, 1];
  const ys = reachOf(points.flatMap(({ low, middle, high }) => [low, middle, high])) ?? [0, 1];
  return {
    plot,
    x: makeAxis(across, xs, [plot.left, plot.right], massUnit, 7.3 * look.text),
    y: makeAxis(up, roomy(ys), [plot.bottom, plot.top], massUnit, 3.6 * look.text),
  };
};

/** The line of the plan as it is, named above the plot, or within where the plot's own name stands there. */
const todayShapes = (at: number, { left, right, top, bottom }: Plot, name: string, look: Look): readonly Shape[] => {
  const half = 0.3 * TODAY.length * look.text;
  const isNamedAbove = at - half > left + 0.6 * name.length * look.name + look.text;
  const [y, halo] = isNamedAbove ? [top - 0.9 * look.text, {}] : [top + 0.9 * look.text, { halo: "sheet" } as const];
  const isRight = at + half > right;
  const beside = isNamedAbove ? 0 : 0.5 * look.text;
  return [
    line(at, top, at, bottom, "ink", look.edge, look.dash),
    words(isRight ? Math.min(right, at - beside) : at + beside, y, TODAY, {
      size: look.text,
      ink: "ink",
      anchor: isRight ? "end" : isNamedAbove ? "middle" : "start",
      ...halo,
    }),
  ];
};

/** Between these values it turns: hatched, with a line through the middle. */
const turnShapes = (a: number, b: number, { top, bottom }: Plot, look: Look): readonly Shape[] => [
  {
    kind: "area",
    points: [a, top, b, top, b, bottom, a, bottom],
    ink: "status-short",
    texture: "hatched",
    alpha: 1,
  },
  line((a + b) / 2, top, (a + b) / 2, bottom, "status-short", look.curve),
];

export const studyCurvePicture = (curve: StudyCurve, size: Size, look: Look): Picture => {
  const { points, today, turns, notes } = curve;
  const { plot, x, y } = studyCurveAxes(curve, size, look);
  const isBanded = points.some(({ low, high }) => high > low);
  const band = [
    ...points.flatMap((one) => [x.at(one.x), y.at(one.high)]),
    ...points.toReversed().flatMap((one) => [x.at(one.x), y.at(one.low)]),
  ];
  const shapes: readonly Shape[] = [
    headName(plot, y.title, look),
    ...rulesAcross(plot, y.ticks, look),
    ...ticksUnder(plot, x.ticks, look),
    footEdge(plot, look),
    footName(plot, x.title, look),
    ...(isBanded ? [flatArea(band, "accent", 0.18)] : []),
    ...turns.flatMap(({ below, above }) => turnShapes(x.at(below), x.at(above), plot, look)),
    {
      kind: "path",
      points: points.flatMap((one) => [x.at(one.x), y.at(one.middle)]),
      ink: "accent",
      width: look.curve,
    },
    ...(points.length > MAX_MARKS ? [] : points).map((one): Shape => ({
      kind: "dot",
      x: x.at(one.x),
      y: y.at(one.middle),
      radius: look.dot,
      fill: "sheet",
      edge: "accent",
      edgeWidth: look.edge,
    })),
    ...(today === null ? [] : todayShapes(x.at(today), plot, y.title, look)),
    ...footNotes(plot, notes, look),
  ];
  return { ...size, groups: [{ clip: null, shapes }] };
};
