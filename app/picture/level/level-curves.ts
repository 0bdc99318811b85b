/** The curves of a level chart: the past with what of it is assumed, the readings, the forecast, the case compared with. */
import { type Jump, curve } from "../curve.ts";
import { type Ink, propellantInk } from "../ink.ts";
import type { MassScale } from "../mass-scale.ts";
import { type Box, line, type Shape } from "../shape.ts";
import type { TimeScale } from "../time-scale.ts";
import type { LevelLook } from "./level-look.ts";
import type { LevelReading, LevelSource } from "./level-source.ts";
import { partOf } from "./part-of.ts";

/** Closes a curve down to empty. */
const areaUnder = (points: readonly number[], bottom: number): readonly number[] =>
  points.length < 4 ? [] : [...points, points[points.length - 2] ?? 0, bottom, points[0] ?? 0, bottom];

interface PastPart {
  readonly part: readonly number[];
  readonly isAssumed: boolean;
}

/** The past in parts that were recorded and parts that are assumed. */
const splitAt = (points: readonly number[], { assumed }: LevelSource, scale: TimeScale): readonly PastPart[] => {
  if (points.length < 4) return [];
  if (assumed.length === 0) return [{ part: points, isAssumed: false }];
  const edges = assumed.map(({ fromAt, untilAt }) => [scale.x(fromAt), scale.x(untilAt)] as const);
  const parts: PastPart[] = [];
  let x = -Infinity;
  for (const [fromX, untilX] of edges) {
    parts.push({ part: partOf(points, x, fromX), isAssumed: false });
    parts.push({ part: partOf(points, fromX, untilX), isAssumed: true });
    x = untilX;
  }
  parts.push({ part: partOf(points, x, Infinity), isAssumed: false });
  return parts.filter(({ part }) => part.length >= 4 && (part.at(-2) ?? 0) > (part[0] ?? 0));
};

/** Those that stand far enough from the later one; the last always stands. */
const thinned = (readings: readonly LevelReading[], scale: TimeScale, leastApart: number): readonly LevelReading[] => {
  if (leastApart === 0) return readings;
  const kept: LevelReading[] = [];
  for (const reading of readings.toReversed()) {
    const later = kept.at(-1);
    if (later === undefined || scale.x(later.at) - scale.x(reading.at) >= leastApart) kept.push(reading);
  }
  return kept.toReversed();
};

/** Points with bars of one standard uncertainty. */
const readingShapes = (
  source: LevelSource,
  axis: MassScale,
  scale: TimeScale,
  { reading: { radius, edge, bar, cap, leastApart } }: LevelLook,
): readonly Shape[] => {
  const ink = propellantInk(source.propellant.position);
  const shown = source.readings.filter((point) => point.at >= scale.fromAt && point.at <= scale.untilAt);
  return thinned(shown, scale, leastApart).flatMap((point): readonly Shape[] => {
    const x = scale.x(point.at);
    const high = axis.y(point.massKg + point.sigmaKg);
    const low = axis.y(Math.max(0, point.massKg - point.sigmaKg));
    const bars =
      low - high < radius + 1
        ? []
        : [
            line(x, high, x, low, "ink", bar),
            ...(cap === 0
              ? []
              : [line(x - cap, high, x + cap, high, "ink", bar), line(x - cap, low, x + cap, low, "ink", bar)]),
          ];
    return [...bars, { kind: "dot", x, y: axis.y(point.massKg), radius, fill: "raised", edge: ink, edgeWidth: edge }];
  });
};

/** The recorded past, a heavy line; broken where it is assumed. With the readings. */
export const levelPast = (
  source: LevelSource,
  plot: Box,
  axis: MassScale,
  scale: TimeScale,
  look: LevelLook,
): readonly Shape[] => {
  const bottom = plot.y + plot.height;
  const ink = propellantInk(source.propellant.position);
  const { points } = curve(source.past, scale, axis.y);
  const under = (part: readonly number[], isAssumed: boolean): readonly Shape[] =>
    look.isTinted
      ? [
          {
            kind: "area",
            points: areaUnder(part, bottom),
            ink,
            texture: isAssumed ? "hatched" : "flat",
            alpha: isAssumed ? 0.3 : 0.16,
          },
        ]
      : [];
  const drawn = splitAt(points, source, scale).flatMap(({ part, isAssumed }): readonly Shape[] => [
    ...under(part, isAssumed),
    isAssumed
      ? { kind: "path", points: part, ink, width: look.past, dash: look.assumedDash }
      : { kind: "path", points: part, ink, width: look.past },
  ]);
  return [...drawn, ...readingShapes(source, axis, scale, look)];
};

/** A short tick where each upright move ends: above at a delivery, below at a draw. Dense ones keep their distance. */
const serifs = (
  jumps: readonly Jump[],
  axis: MassScale,
  ink: Ink,
  { serif, forecast }: LevelLook,
): readonly Shape[] => {
  if (serif === 0) return [];
  const shapes: Shape[] = [];
  let lastX = -Infinity;
  for (const jump of jumps) {
    const y = axis.y(jump.toKg);
    if (Math.abs(y - axis.y(jump.fromKg)) < 5 || jump.x - lastX < 2 * serif + 2) continue;
    shapes.push(line(jump.x - serif, y, jump.x + serif, y, ink, forecast));
    lastX = jump.x;
  }
  return shapes;
};

/** The forecast: a lighter line, and a ruled area under it where there is room, so that it is told from the past by texture. */
export const levelForecast = (
  source: LevelSource,
  plot: Box,
  axis: MassScale,
  scale: TimeScale,
  look: LevelLook,
): readonly Shape[] => {
  const ink = propellantInk(source.propellant.position);
  const { points, jumps } = curve(source.forecast, scale, axis.y);
  if (points.length < 4) return [];
  const path: Shape =
    look.forecastDash === undefined
      ? { kind: "path", points, ink, width: look.forecast }
      : { kind: "path", points, ink, width: look.forecast, dash: look.forecastDash };
  if (!look.isTinted) return [path];
  const under = areaUnder(points, plot.y + plot.height);
  return [{ kind: "area", points: under, ink, texture: "ruled", alpha: 0.2 }, path, ...serifs(jumps, axis, ink, look)];
};

/** The case compared with: the same curve, thinner and without the propellant's ink. */
export const levelCompared = (
  source: LevelSource,
  axis: MassScale,
  scale: TimeScale,
  look: LevelLook,
): readonly Shape[] => {
  if (source.compare === null) return [];
  const { points } = curve(source.compare, scale, axis.y);
  if (points.length < 4) return [];
  return [
    look.comparedDash === undefined
      ? { kind: "path", points, ink: "ink-soft", width: look.compared }
      : { kind: "path", points, ink: "ink-soft", width: look.compared, dash: look.comparedDash },
  ];
};
