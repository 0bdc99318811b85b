/** The level of one propellant at a depot over time: recorded, forecast and compared, with its limits by name. */
import { line } from "d3-shape";
import { type Plot, round, timeAxis, timeScale, valueAxis, valueScale } from "./axis.ts";
import { type Ink, type Picture, type Shape, pathShape, textShape } from "./picture.ts";

/** A point of a curve: instant and kg. Two points at one instant make a vertical. */
export type LevelPoint = readonly [at: number, massKg: number];

export interface LevelPictureInput {
  readonly width: number;
  readonly height: number;
  readonly fromAt: number;
  readonly untilAt: number;
  readonly asOfAt: number;
  readonly massUnit: "t" | "kg";
  readonly ink: Ink;
  readonly name: string;
  readonly recorded: readonly LevelPoint[];
  readonly forecast: readonly LevelPoint[];
  /** Another plan case; empty: none. */
  readonly compared: readonly LevelPoint[];
  readonly maximumFillKg: number;
  readonly reserveKg: number;
  readonly heelKg: number;
  readonly readings: readonly { readonly at: number; readonly massKg: number; readonly sigmaKg: number }[];
}

/** Draws it. Levels in kg, size in points. */
export const levelPicture = (input: LevelPictureInput): Picture => {
  const plot: Plot = { left: 44, top: 12, right: input.width - 62, bottom: input.height - 20 };
  const x = timeScale(plot, input.fromAt, input.untilAt);
  const highest = Math.max(
    input.maximumFillKg,
    ...[input.recorded, input.forecast, input.compared].flat().map((p) => p[1]),
  );
  const y = valueScale(plot, highest);
  const path = line<LevelPoint>(
    (p) => round(x(p[0])),
    (p) => round(y(p[1])),
  );
  const curve = (points: readonly LevelPoint[], look: Parameters<typeof pathShape>[1]): readonly Shape[] =>
    points.length < 2 ? [] : [pathShape(path([...points]) ?? "", look)];
  const asOfX = round(Math.min(Math.max(x(input.asOfAt), plot.left), plot.right));
  return {
    width: input.width,
    height: input.height,
    shapes: [
      ...valueAxis(plot, y, input.massUnit, input.massUnit === "t" ? 1000 : 1),
      ...timeAxis(plot, x),
      ...(asOfX > plot.left
        ? [pathShape(`M${asOfX},${plot.top}V${plot.bottom}`, { stroke: "quiet", width: 0.5, dash: [1, 2] })]
        : []),
      ...curve(input.compared, { stroke: "quiet", width: 0.8 }),
      ...curve(input.recorded, { stroke: input.ink, width: 1.5 }),
      ...curve(input.forecast, { stroke: input.ink, width: 1.1, dash: [4, 1.5] }),
      ...input.readings.flatMap((reading) => readingMark(round(x(reading.at)), y, reading.massKg, reading.sigmaKg)),
      ...limits(input, plot, y),
    ],
  };
};

const readingMark = (x: number, y: (kg: number) => number, massKg: number, sigmaKg: number): readonly Shape[] => {
  const at = round(y(massKg));
  return [
    pathShape(`M${x},${round(y(massKg + sigmaKg))}V${round(y(Math.max(0, massKg - sigmaKg)))}`, {
      stroke: "text",
      width: 0.5,
    }),
    pathShape(`M${x - 1.3},${at}a1.3,1.3 0 1 0 2.6,0a1.3,1.3 0 1 0 -2.6,0`, {
      fill: "ground",
      stroke: "text",
      width: 0.5,
    }),
  ];
};

/** Names of the limits at the right edge, moved apart where they would touch. */
const limits = (input: LevelPictureInput, plot: Plot, y: (kg: number) => number): readonly Shape[] => {
  const lines = [
    { words: "maximum fill", kg: input.maximumFillKg, dash: [] },
    { words: "reserve", kg: input.reserveKg, dash: [3, 2] },
    { words: "heel", kg: input.heelKg, dash: [1, 1.5] },
  ].filter((each) => each.kg > 0);
  const last = input.forecast.at(-1) ?? input.recorded.at(-1);
  const labels = [
    ...lines.map(({ words, kg }) => ({ words, y: y(kg), isBold: false })),
    ...(last ? [{ words: input.name, y: y(last[1]), isBold: true }] : []),
  ];
  return [
    ...lines.map(({ kg, dash }) =>
      pathShape(`M${plot.left},${round(y(kg))}H${plot.right}`, { stroke: "quiet", width: 0.6, dash }),
    ),
    ...spread(labels, 8.5, plot.top, plot.bottom + 2).map((label) =>
      textShape(plot.right + 4, round(label.y + 2.5), label.words, {
        size: 7,
        ink: label.isBold ? input.ink : "quiet",
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
