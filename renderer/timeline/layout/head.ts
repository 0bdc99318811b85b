/** The head of the timeline: the overview of the whole campaign, and the time axis of what is shown. */
import { propellantInk } from "../../../app/picture/ink.ts";
import { type Group, line, type Shape } from "../../../app/picture/shape.ts";
import { curve } from "../../../app/picture/curve.ts";
import { type TimeScale, timeScale } from "../../../app/picture/time-scale.ts";
import { timeTicks } from "../../../app/picture/time-ticks.ts";
import { formatDate } from "../../format/instant.ts";
import { asFlown } from "../model/as-flown.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { GUTTER, HEAD } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

export const HEAD_HEIGHT = HEAD.overview + HEAD.axis;

/** The axis of the overview: the whole campaign over the width of the plot. */
export const overviewScale = (model: TimelineModel, width: number): TimeScale =>
  timeScale(model.whole.fromAt, model.whole.untilAt, GUTTER.left, width - GUTTER.right);

/** The whole campaign small: levels as a share of their maximum fill, sorties as their statuses above. */
export const overviewShapes = (model: TimelineModel, width: number): readonly Shape[] => {
  const scale = overviewScale(model, width);
  const top = 15;
  const bottom = HEAD.overview - 3;
  const supplies = new Map(model.glance.sorties.map((supply) => [supply.sortieId, supply]));
  const marks = model.sorties.flatMap((sortie): readonly Shape[] => {
    const supply = supplies.get(sortie.id);
    const x = scale.x(asFlown(sortie, supply).loadAt);
    const status = supply?.status;
    return status === undefined
      ? [line(x, 6, x, 12, "ink-soft", 1.5)]
      : [{ kind: "status", x, y: 8, radius: 3.5, status }];
  });
  const curves = model.levels.flatMap((level): readonly Shape[] => {
    const y = (massKg: number): number => bottom - (massKg / Math.max(level.highestKg, 1)) * (bottom - top);
    const ink = propellantInk(level.propellant.position);
    return [level.past, level.forecast].flatMap((stretches): readonly Shape[] => {
      const { points } = curve(stretches, scale, y);
      return points.length < 4 ? [] : [{ kind: "path", points, ink, width: 1 }];
    });
  });
  const asOfX = scale.x(model.plan.asOfAt);
  return [
    {
      kind: "rect",
      x: scale.left,
      y: 0.5,
      width: scale.right - scale.left,
      height: HEAD.overview - 1,
      fill: "ground",
      edge: null,
    },
    ...curves,
    line(asOfX, 0, asOfX, HEAD.overview, "ink"),
    ...marks,
  ];
};

/** Both rows of the axis; a coarse label gives way to the one after it at the left edge. */
export const axisShapes = (model: TimelineModel, frame: ViewFrame, width: number): readonly Shape[] => {
  const { scale, measure } = frame;
  const { fine, coarse } = timeTicks(scale);
  const top = HEAD.overview;
  const bottom = HEAD_HEIGHT - 0.5;
  const shapes: Shape[] = [line(0, bottom, width, bottom, "hairline")];
  const asOfText = `as of ${formatDate(model.plan.asOfAt)}`;
  const asOfX = scale.x(model.plan.asOfAt);
  const isAsOfSeen = asOfX >= scale.left && asOfX <= scale.right;
  const asOfHalf = measure(asOfText, 11, true) / 2;
  const asOfMiddle = Math.min(Math.max(asOfX, scale.left + asOfHalf), scale.right - asOfHalf);
  coarse.forEach((tick, index) => {
    const next = coarse[index + 1]?.x ?? scale.right;
    const end = tick.x + 4 + measure(tick.label, 12, true);
    const hitsAsOf = isAsOfSeen && tick.x < asOfMiddle + asOfHalf + 8 && end > asOfMiddle - asOfHalf - 8;
    if (index > 0) shapes.push(line(Math.round(tick.x) + 0.5, top + 4, Math.round(tick.x) + 0.5, bottom, "hairline"));
    if (end + 4 <= next && !hitsAsOf)
      shapes.push({
        kind: "text",
        x: tick.x + 4,
        y: top + 11,
        text: tick.label,
        ink: "ink",
        size: 12,
        anchor: "start",
        isBold: true,
      });
  });
  for (const tick of fine) {
    const half = measure(tick.label, 11) / 2;
    shapes.push(line(Math.round(tick.x) + 0.5, bottom - 5, Math.round(tick.x) + 0.5, bottom, "edge"));
    const isCrossed = isAsOfSeen && Math.abs(tick.x - asOfX) < half + 3;
    if (!isCrossed && tick.x - half >= scale.left - 8 && tick.x + half <= scale.right + 8)
      shapes.push({
        kind: "text",
        x: tick.x,
        y: top + 26,
        text: tick.label,
        ink: "ink-soft",
        size: 11,
        anchor: "middle",
      });
  }
  if (isAsOfSeen) {
    shapes.push(line(asOfX, top + 18, asOfX, bottom, "ink"));
    shapes.push({
      kind: "text",
      x: asOfMiddle,
      y: top + 11,
      text: asOfText,
      ink: "ink",
      size: 11,
      anchor: "middle",
      isBold: true,
    });
  }
  return shapes;
};

/** Overview and axis as one picture's groups. */
export const headGroups = (model: TimelineModel, frame: ViewFrame, width: number): readonly Group[] => [
  {
    clip: { x: GUTTER.left - 6, y: 0, width: width - GUTTER.left - GUTTER.right + 12, height: HEAD.overview },
    shapes: overviewShapes(model, width),
  },
  {
    clip: null,
    shapes: [
      { kind: "text", x: 12, y: HEAD.overview / 2, text: "Campaign", ink: "ink-soft", size: 12, anchor: "start" },
      ...axisShapes(model, frame, width),
    ],
  },
];
