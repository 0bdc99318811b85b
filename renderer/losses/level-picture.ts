/**
 * Measured, predicted and fitted level on one time axis. Above, the levels; below, what they are off the prediction, where
 * the gauge's uncertainty and the interval of the fit can be seen.
 */
import { levelAt, levelBefore, sumLevels } from "../../app/forecast/curve.ts";
import type { TankFit } from "../../app/losses/fit/fit-tank.ts";
import { tickStep, ticks } from "d3-array";
import { curve } from "../../app/picture/curve.ts";
import { massScale } from "../../app/picture/mass-scale.ts";
import type { Ink } from "../../app/picture/ink.ts";
import { screenLook, type Size } from "../../app/picture/look.ts";
import { footEdge, headName, type Mark, type Plot, plotOf, rulesAcross, ticksUnder } from "../../app/picture/panel.ts";
import { line, type Picture, type Shape, words } from "../../app/picture/shape.ts";
import { type TimeScale, timeScale } from "../../app/picture/time-scale.ts";
import { timeTicks } from "../../app/picture/time-ticks.ts";
import type { MassUnit } from "../format/mass.ts";
import { formatNumber, formatSigned, withUnit } from "../format/number.ts";

/** Room for figures with sign and unit at the left, for the names of the curves at the right, and between the panels. */
const [FIGURES, NAMES, GAP] = [62, 96, 30] as const;
const look = screenLook;

export interface LevelPictureInput {
  readonly fit: TankFit;
  readonly ink: Ink;
  readonly unit: MassUnit;
}

/** Marks of which the topmost has the unit. */
const withUnitOnTop = (marks: readonly Mark[], unit: string): readonly Mark[] =>
  marks.map(({ at, label }, place) => ({ at, label: place === marks.length - 1 ? withUnit(label, unit) : label }));

/** A reading with its bar of one standard uncertainty; a flagged one is ringed. */
const reading = (
  x: number,
  middle: number,
  high: number,
  low: number,
  ink: Ink,
  isFlagged: boolean,
): readonly Shape[] => [
  ...(low - high < 3
    ? []
    : [
        line(x, high, x, low, "ink", 1.25),
        line(x - 3, high, x + 3, high, "ink", 1.25),
        line(x - 3, low, x + 3, low, "ink", 1.25),
      ]),
  ...(isFlagged ? [{ kind: "dot", x, y: middle, radius: 7, fill: "sheet", edge: "status-short" } as const] : []),
  { kind: "dot", x, y: middle, radius: 3, fill: "raised", edge: ink },
];

/** Samples of each stretch by themselves: between two nothing is known of the level. */
const byStretch = <S extends { readonly stretch: number }>(samples: readonly S[]): readonly (readonly S[])[] => [
  ...Map.groupBy(samples, ({ stretch }) => stretch).values(),
];

/** Where another rate was in force: ruled, with its reason where there is room. */
const apartShapes = ({ fit }: LevelPictureInput, scale: TimeScale, panel: Plot, isNamed: boolean): readonly Shape[] =>
  fit.apartSpans.flatMap(({ fromAt, untilAt, reason }): readonly Shape[] => {
    const a = Math.max(scale.left, scale.x(fromAt));
    const b = Math.min(scale.right, scale.x(untilAt));
    if (b <= a) return [];
    const points = [a, panel.top, b, panel.top, b, panel.bottom, a, panel.bottom];
    const named = words(a, panel.top + 9, reason, { halo: "sheet" });
    return [
      { kind: "area", points, ink: "hairline", texture: "hatched", alpha: 1 },
      ...(isNamed && b - a > 6 * reason.length ? [named] : []),
    ];
  });

/** A reading that does not count: a ring without its bar. */
const apartReading = (x: number, y: number): Shape => ({
  kind: "dot",
  x,
  y,
  radius: 3,
  fill: "sheet",
  edge: "ink-soft",
});

const levelPanel = (input: LevelPictureInput, scale: TimeScale, panel: Plot): readonly Shape[] => {
  const { fit, ink, unit } = input;
  const highest = Math.max(...fit.readings.map(({ massKg }) => massKg), ...fit.curve.map(({ levelKg }) => levelKg));
  const axis = massScale(highest, panel.top, panel.bottom, unit);
  const predicted = curve(sumLevels([fit.predicted]), scale, axis.y);
  const fitted = byStretch(fit.curve).map((samples) =>
    samples.flatMap(({ at, levelKg }) => [scale.x(at), axis.y(levelKg)]),
  );
  const apart = fit.apart.filter(({ at }) => at >= fit.firstAt && at <= fit.lastAt);
  return [
    ...apartShapes(input, scale, panel, true),
    ...rulesAcross(
      panel,
      withUnitOnTop(
        axis.ticks.map(({ y, label }) => ({ at: y, label })),
        axis.unit,
      ),
      look,
    ),
    footEdge(panel, look),
    { kind: "path", points: predicted.points, ink: "ink-soft", width: 1.5, dash: [5, 4] },
    ...fitted.map((points): Shape => ({ kind: "path", points, ink, width: 2 })),
    ...apart.map(({ at, massKg }) => apartReading(scale.x(at), axis.y(massKg))),
    ...fit.readings.flatMap(({ at, massKg, sigmaKg, isFlagged }) =>
      reading(scale.x(at), axis.y(massKg), axis.y(massKg + sigmaKg), axis.y(massKg - sigmaKg), ink, isFlagged),
    ),
    headName(panel, "Level", look),
  ];
};

/** What the prediction holds beside a sample: at a transfer, the side of it on which the sample stands. */
const predictedAt = (fit: TankFit, at: number): number => levelAt(fit.predicted, at);

const deviationPanel = (input: LevelPictureInput, scale: TimeScale, panel: Plot): readonly Shape[] => {
  const { fit, ink } = input;
  const samples = fit.curve.map((point) => {
    const predictedKg = predictedAt(fit, point.at);
    return {
      x: scale.x(point.at),
      stretch: point.stretch,
      level: point.levelKg - predictedKg,
      low: point.lowKg - predictedKg,
      high: point.highKg - predictedKg,
    };
  });
  // A reading stands after the inflows and before the outflows of its instant.
  const points = fit.readings.map((each) => {
    const sides = [levelBefore(fit.predicted, each.at), levelAt(fit.predicted, each.at)];
    return { ...each, x: scale.x(each.at), offKg: each.massKg - Math.max(...sides) };
  });
  const ends = [
    0,
    ...samples.flatMap(({ low, high }) => [low, high]),
    ...points.flatMap(({ offKg, sigmaKg }) => [offKg - sigmaKg, offKg + sigmaKg]),
  ];
  const [lowest, highest] = [Math.min(...ends), Math.max(...ends)];
  const pad = 0.06 * (highest - lowest) || 1;
  const y = (kg: number): number =>
    panel.bottom - ((kg - lowest + pad) / (highest - lowest + 2 * pad)) * (panel.bottom - panel.top);
  const count = Math.max(2, Math.round((panel.bottom - panel.top) / 30));
  const decimals = Math.max(0, -Math.floor(Math.log10(tickStep(lowest - pad, highest + pad, count)) + 1e-9));
  const marks = ticks(lowest - pad, highest + pad, count).map((kg) => ({
    at: y(kg),
    label: formatSigned(kg, decimals),
  }));
  const stretches = byStretch(samples);
  const bandOf = (part: (typeof stretches)[number]): readonly number[] => [
    ...part.flatMap(({ x, high }) => [x, y(high)]),
    ...part.toReversed().flatMap(({ x, low }) => [x, y(low)]),
  ];
  const lastX = scale.right + 8;
  const last = samples.at(-1);
  const names: Shape[] = [words(lastX, y(0), "predicted")];
  if (last !== undefined) {
    const fitY = y(last.level);
    // Beside the prediction there is no room for a second name: it goes above or below it.
    const apart = Math.abs(fitY - y(0)) < 13 ? (fitY <= y(0) ? y(0) - 13 : y(0) + 13) : fitY;
    names.push(words(lastX, apart, "fitted, 95 %", { ink: "ink", isBold: true }));
  }
  return [
    ...apartShapes(input, scale, panel, false),
    ...rulesAcross(panel, withUnitOnTop(marks, "kg"), look),
    ...stretches.map((part): Shape => ({ kind: "area", points: bandOf(part), ink, texture: "flat", alpha: 0.22 })),
    { kind: "path", points: [scale.left, y(0), scale.right, y(0)], ink: "ink-soft", width: 1.5, dash: [5, 4] },
    ...stretches.map((part): Shape => ({
      kind: "path",
      points: part.flatMap(({ x, level }) => [x, y(level)]),
      ink,
      width: 2,
    })),
    ...points.flatMap(({ x, offKg, sigmaKg, isFlagged }) =>
      reading(x, y(offKg), y(offKg + sigmaKg), y(offKg - sigmaKg), ink, isFlagged),
    ),
    footEdge(panel, look),
    headName(panel, "Off the prediction; bars are one σ of the gauge", look),
    ...names,
  ];
};

const timeAxis = (scale: TimeScale, panel: Plot): readonly Shape[] => {
  const { fine, coarse } = timeTicks(scale);
  return [
    ...ticksUnder(
      panel,
      fine.map(({ x, label }) => ({ at: x, label })),
      look,
    ),
    ...coarse.map(({ x, label }) => words(x, panel.bottom + 28, label, { isBold: true })),
  ];
};

export const levelPicture = (input: LevelPictureInput, size: Size): Picture => {
  const { fit } = input;
  const plot = plotOf(size, look, { left: FIGURES, right: NAMES });
  const scale = timeScale(fit.firstAt, Math.max(fit.lastAt, fit.firstAt + 1), plot.left, plot.right);
  const middle = (plot.top + plot.bottom) / 2;
  const upper: Plot = { ...plot, bottom: middle - GAP / 2 };
  const lower: Plot = { ...plot, top: middle + GAP / 2 };
  return {
    ...size,
    groups: [
      {
        clip: null,
        shapes: [...levelPanel(input, scale, upper), ...deviationPanel(input, scale, lower), ...timeAxis(scale, lower)],
      },
    ],
  };
};

/** The same in words. */
export const levelWords = ({ fit }: LevelPictureInput): string => {
  const last = fit.readings.at(-1);
  const off = last === undefined ? 0 : last.massKg - predictedAt(fit, last.at);
  return `${fit.readings.length} readings. The last one is ${formatNumber(Math.abs(off))} kg ${off < 0 ? "below" : "above"} the prediction.`;
};
