/** The level of one propellant at a depot inside a box: band, curves, readings, limits by name. A picture has one or several. */
import { valueAxis, valueScale } from "./axis.ts";
import type { Plot } from "./panel.ts";
import type { Ink } from "./ink.ts";
import { flatArea, line, type PathShape, type Shape, wordsOn } from "./shape.ts";
import type { TimeScale } from "./time-scale.ts";

/** A point of a curve: instant and kg. Two points at one instant make a vertical. */
export type LevelPoint = readonly [at: number, massKg: number];

/** Where the level lies in nine of ten runs of the risk. */
export interface BandPoint {
  readonly at: number;
  readonly lowKg: number;
  readonly highKg: number;
}

export interface LevelShapesInput {
  readonly massUnit: "t" | "kg";
  readonly ink: Ink;
  /** At the end of the curve; empty: it stands elsewhere. */
  readonly name: string;
  readonly recorded: readonly LevelPoint[];
  /** Parts before the as-of instant that rest on events without a record; empty: none. */
  readonly assumed: readonly (readonly LevelPoint[])[];
  readonly forecast: readonly LevelPoint[];
  /** Another plan case; empty: none. */
  readonly compared: readonly LevelPoint[];
  /** Empty: none. */
  readonly band: readonly BandPoint[];
  readonly maximumFillKg: number;
  readonly reserveKg: number;
  readonly heelKg: number;
  readonly readings: readonly { readonly at: number; readonly massKg: number; readonly sigmaKg: number }[];
}

/** Readings nearer than this to the one before are left out: a caterpillar says no more than a few points. */
const LEAST_APART = 5;

/** Draws it. Levels in kg, sizes in points; `ticks`: about so many values along the edge. */
export const levelShapes = (input: LevelShapesInput, plot: Plot, x: TimeScale, ticks: number): readonly Shape[] => {
  const highest = Math.max(
    input.maximumFillKg,
    ...[input.recorded, input.forecast, input.compared].flat().map((p) => p[1]),
    ...input.band.map(({ highKg }) => highKg),
  );
  const y = valueScale(plot, highest, ticks);
  const path = (points: readonly LevelPoint[]): readonly number[] => points.flatMap(([at, kg]) => [x.x(at), y(kg)]);
  const curve = (points: readonly LevelPoint[], look: Pick<PathShape, "ink" | "width" | "dash">): readonly Shape[] =>
    points.length < 2 ? [] : [{ kind: "path", points: path(points), ...look }];
  return [
    ...valueAxis(plot, y, input.massUnit, { perUnit: input.massUnit === "t" ? 1000 : 1, ticks }),
    ...bandShapes(input, path),
    ...curve(input.compared, { ink: "ink-soft", width: 0.8 }),
    ...curve(input.recorded, { ink: input.ink, width: 1.5 }),
    ...input.assumed.flatMap((part) => [
      ...curve(part, { ink: "sheet", width: 1.9 }),
      ...curve(part, { ink: input.ink, width: 1.5, dash: [1.2, 1.2] }),
    ]),
    ...curve(input.forecast, { ink: input.ink, width: 1.1, dash: [4, 1.5] }),
    ...thinned(input.readings, x).flatMap(({ at, massKg, sigmaKg }) => readingMark(x.x(at), y, massKg, sigmaKg)),
    ...limits(input, plot, y),
  ];
};

const bandShapes = (
  { band, ink }: LevelShapesInput,
  path: (points: readonly LevelPoint[]) => readonly number[],
): readonly Shape[] => {
  if (band.length < 2) return [];
  const outline: LevelPoint[] = [
    ...band.map(({ at, highKg }): LevelPoint => [at, highKg]),
    ...band.toReversed().map(({ at, lowKg }): LevelPoint => [at, lowKg]),
  ];
  return [flatArea(path(outline), ink, 0.16)];
};

/** The last one always stands. */
const thinned = <R extends { readonly at: number }>(readings: readonly R[], x: TimeScale): readonly R[] => {
  const kept: R[] = [];
  for (const reading of readings.toSorted((a, b) => b.at - a.at)) {
    const later = kept.at(-1);
    if (later === undefined || x.x(later.at) - x.x(reading.at) >= LEAST_APART) kept.push(reading);
  }
  return kept.toReversed();
};

const readingMark = (x: number, y: (kg: number) => number, massKg: number, sigmaKg: number): readonly Shape[] => {
  return [
    line(x, y(massKg + sigmaKg), x, y(Math.max(0, massKg - sigmaKg)), "ink", 0.5),
    { kind: "dot", x, y: y(massKg), radius: 1.3, fill: "sheet", edge: "ink", edgeWidth: 0.5 },
  ];
};

/** Names of the limits at the right edge, moved apart where they would touch. */
const limits = (input: LevelShapesInput, plot: Plot, y: (kg: number) => number): readonly Shape[] => {
  const lines = [
    { words: "maximum fill", kg: input.maximumFillKg, dash: undefined },
    { words: "reserve", kg: input.reserveKg, dash: [3, 2] },
    { words: "heel", kg: input.heelKg, dash: [1, 1.5] },
  ].filter((each) => each.kg > 0);
  const last = input.name === "" ? undefined : (input.forecast.at(-1) ?? input.recorded.at(-1));
  const labels = [
    ...lines.map(({ words, kg }) => ({ words, y: y(kg), isBold: false })),
    ...(last ? [{ words: input.name, y: y(last[1]), isBold: true }] : []),
  ];
  return [
    ...lines.map(({ kg, dash }) => line(plot.left, y(kg), plot.right, y(kg), "ink-soft", 0.6, dash)),
    ...spread(labels, 8.5, plot.top, plot.bottom + 2).map((label) =>
      wordsOn(plot.right + 4, label.y + 2.5, label.words, {
        size: 7,
        ink: label.isBold ? input.ink : "ink-soft",
        isBold: label.isBold,
      }),
    ),
  ];
};

/** Moves labels apart to at least `gap`, keeping their order, inside top and bottom. */
const spread = <L extends { readonly y: number }>(
  labels: readonly L[],
  gap: number,
  top: number,
  bottom: number,
): readonly L[] => {
  const placed: L[] = [];
  for (const label of labels.toSorted((a, b) => a.y - b.y)) {
    const above = placed.at(-1);
    placed.push({ ...label, y: Math.max(label.y, above ? above.y + gap : top) });
  }
  let floor = bottom;
  return placed
    .toReversed()
    .map((label) => {
      const moved = { ...label, y: Math.min(label.y, floor) };
      floor = moved.y - gap;
      return moved;
    })
    .toReversed();
};
