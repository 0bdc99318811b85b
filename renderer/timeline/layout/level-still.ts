/** The parts of a level chart that a drag does not change: rules, ticks, limits with hatching, the past, the readings. */
import { curve } from "../../../app/picture/curve.ts";
import { type MassScale, type MassTick, massScale } from "../../../app/picture/mass-scale.ts";
import { type Ink, propellantInk } from "../../../app/picture/ink.ts";
import { type Shape, line } from "../../../app/picture/shape.ts";
import { withUnit } from "../../format/number.ts";
import type { LevelSource } from "../model/level-source.ts";
import { ASSUMED_DASH, partOf } from "./assumed-look.ts";
import type { ChartPlace } from "./place.ts";
import { type ViewFrame, fitted } from "./view-frame.ts";

/** Mass axis of a chart. */
export const axisOf = (source: LevelSource, place: ChartPlace, frame: ViewFrame): MassScale =>
  massScale(source.highestKg, place.plot.y, place.plot.y + place.plot.height, frame.unit);

/** Closes a curve down to empty. */
export const areaUnder = (points: readonly number[], bottom: number): readonly number[] =>
  points.length < 4 ? [] : [...points, points[points.length - 2] ?? 0, bottom, points[0] ?? 0, bottom];

const zone = (from: number, until: number, left: number, right: number): readonly Shape[] =>
  until - from < 1
    ? []
    : [
        {
          kind: "area",
          points: [left, from, right, from, right, until, left, until],
          ink: "hairline",
          texture: "hatched",
          alpha: 0.8,
        },
      ];

/** Rules, zones and limit lines, clipped to the plot by the caller. */
export const levelGround = (source: LevelSource, place: ChartPlace, axis: MassScale): readonly Shape[] => {
  const { x: left, y: top, width, height } = place.plot;
  const right = left + width;
  const bottom = top + height;
  const rules = axis.ticks.filter((tick) => tick.massKg > 0).map((tick) => line(left, tick.y, right, tick.y, "rule"));
  const fillY = axis.y(source.fillKg);
  const heelY = axis.y(source.heelKg);
  const reserveY = axis.y(source.reserveKg);
  const limits: Shape[] = [];
  if (source.fillKg > 0) limits.push(...zone(top, fillY, left, right), line(left, fillY, right, fillY, "ink-soft", 1));
  if (source.heelKg > 0)
    limits.push(...zone(heelY, bottom, left, right), line(left, heelY, right, heelY, "ink-soft", 1));
  if (source.reserveKg > source.heelKg) limits.push(line(left, reserveY, right, reserveY, "ink-soft", 1, [5, 4]));
  return [...rules, ...limits, line(left, bottom, right, bottom, "hairline")];
};

/** Ticks of the mass axis and the propellant's name, in the left gutter. */
export const levelGutter = (
  source: LevelSource,
  place: ChartPlace,
  axis: MassScale,
  frame: ViewFrame,
): readonly Shape[] => {
  const { x: left } = place.plot;
  const ink = propellantInk(source.propellant.position);
  const titleY = place.plot.y + 2;
  // It keeps to the gutter: what lies above the maximum fill is the plot's.
  const name = fitted(source.propellant.name, left - 26, (text) => frame.measure(text, 13, true));
  const nameEnd = 22 + frame.measure(name, 13, true);
  const labelled = (tick: MassTick): string => withUnit(tick.label, axis.unit);
  const kept = axis.ticks.filter(
    (tick) => Math.abs(tick.y - titleY) > 13 || left - 8 - frame.measure(labelled(tick), 11) > nameEnd + 6,
  );
  const ticks: readonly Shape[] = kept.map((tick, index) => ({
    kind: "text",
    x: left - 8,
    y: tick.y,
    text: index === kept.length - 1 ? labelled(tick) : tick.label,
    ink: "ink-soft",
    size: 11,
    anchor: "end",
  }));
  return [
    ...ticks,
    { kind: "rect", x: 12, y: titleY - 6, width: 4, height: 12, fill: ink, edge: null, corner: 1 },
    {
      kind: "text",
      x: 22,
      y: titleY,
      text: name,
      ink: "ink",
      size: 13,
      anchor: "start",
      isBold: true,
      halo: "sheet",
    },
  ];
};

/** The recorded past: a heavy line over a flat tint. Readings are points with bars of one standard uncertainty. */
export const levelPast = (source: LevelSource, place: ChartPlace, axis: MassScale, frame: ViewFrame) => {
  const bottom = place.plot.y + place.plot.height;
  const ink = propellantInk(source.propellant.position);
  const { points } = curve(source.past, frame.scale, axis.y);
  const area = (part: readonly number[], texture: "flat" | "hatched"): Shape => ({
    kind: "area",
    points: areaUnder(part, bottom),
    ink,
    texture,
    alpha: texture === "flat" ? 0.16 : 0.3,
  });
  const drawn = splitAt(points, source, frame).flatMap(({ part, isAssumed }): readonly Shape[] =>
    isAssumed
      ? [area(part, "hatched"), { kind: "path", points: part, ink, width: 2.25, dash: ASSUMED_DASH }]
      : [area(part, "flat"), { kind: "path", points: part, ink, width: 2.25 }],
  );
  return [...drawn, ...readingShapes(source, axis, frame, ink)];
};

interface PastPart {
  readonly part: readonly number[];
  readonly isAssumed: boolean;
}

/** The past in parts that were recorded and parts that are assumed. */
const splitAt = (points: readonly number[], { assumed }: LevelSource, { scale }: ViewFrame): readonly PastPart[] => {
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

const readingShapes = (source: LevelSource, axis: MassScale, frame: ViewFrame, ink: Ink): readonly Shape[] =>
  source.readings
    .filter((point) => point.at >= frame.scale.fromAt && point.at <= frame.scale.untilAt)
    .flatMap((point): readonly Shape[] => {
      const x = frame.scale.x(point.at);
      const high = axis.y(point.massKg + point.sigmaKg);
      const low = axis.y(Math.max(0, point.massKg - point.sigmaKg));
      const bar =
        low - high < 4
          ? []
          : [
              line(x, high, x, low, "ink", 1.25),
              line(x - 3, high, x + 3, high, "ink", 1.25),
              line(x - 3, low, x + 3, low, "ink", 1.25),
            ];
      return [...bar, { kind: "dot", x, y: axis.y(point.massKg), radius: 3, fill: "raised", edge: ink }];
    });
