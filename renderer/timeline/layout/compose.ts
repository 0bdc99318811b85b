/** The pictures of the timeline's body, put together: what stays in a drag, what follows it, the old plan as a ghost. */
import { levelBand } from "../../../app/picture/level/level-band.ts";
import { levelCompared, levelForecast, levelPast } from "../../../app/picture/level/level-curves.ts";
import { levelAxis, levelGround } from "../../../app/picture/level/level-ground.ts";
import { screenLevel } from "../../../app/picture/level/level-look.ts";
import type { MassScale } from "../../../app/picture/mass-scale.ts";
import { fitted } from "../../../app/picture/fitted.ts";
import type { Group, Shape } from "../../../app/picture/shape.ts";
import { line } from "../../../app/picture/shape.ts";
import { timeTicks } from "../../../app/picture/time-ticks.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { flightBar, sortieBar } from "./bar.ts";
import { flightMark, flightShapes } from "./flight-shapes.ts";
import { belowReserve, levelGhost, levelGutter, namesBeside, overflowNotes } from "./level-marks.ts";
import type { Place } from "./place.ts";
import { proposalShapes } from "./proposal-shapes.ts";
import { portShapes } from "./port-shapes.ts";
import { sortieMark, sortieShapes } from "./sortie-shapes.ts";
import type { ViewFrame } from "./view-frame.ts";

/** What is held in the hand; null: nothing. */
export interface Held {
  readonly kind: "flight" | "sortie";
  readonly id: string;
}

const plotClip = (place: Place, top: number, height: number) => ({
  x: place.left,
  y: top,
  width: place.right - place.left,
  height,
});

const forEachLevel = (
  model: TimelineModel,
  place: Place,
  frame: ViewFrame,
  shapes: (level: TimelineModel["levels"][number], chart: Place["charts"][number], axis: MassScale) => Group[],
): readonly Group[] =>
  place.charts.flatMap((chart, index) => {
    const level = model.levels[index];
    return level === undefined ? [] : shapes(level, chart, levelAxis(level, chart.plot, frame.unit));
  });

/** Bars end at the plot; their names and statuses may reach into the right gutter. */
const laneGroups = (place: Place, shapes: readonly Shape[]): readonly Group[] => {
  const isWord = (shape: Shape): boolean => shape.kind === "text" || shape.kind === "status";
  return [
    { clip: plotClip(place, 0, place.height), shapes: shapes.filter((shape) => !isWord(shape)) },
    {
      clip: { x: place.left, y: 0, width: place.width - place.left, height: place.height },
      shapes: shapes.filter(isWord),
    },
  ];
};

/** Lane names, hairlines between lanes, upright rules at the calendar's coarse ticks, the as-of line. */
const grid = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Group[] => {
  const { scale } = frame;
  const names: Shape[] = place.lanes.map((lane) => ({
    kind: "text",
    x: 12,
    y: lane.top + place.lanePad + (lane.kind === "sorties" ? 9 : lane.kind === "ports" ? 5 : 10),
    text: fitted(lane.title, place.left - 20, (text) => frame.measure(text, 13, true)),
    ink: "ink",
    size: 13,
    anchor: "start",
    isBold: true,
  }));
  const seams = place.lanes.map((lane) =>
    line(0, lane.top + lane.height + 0.5, place.width, lane.top + lane.height + 0.5, "hairline"),
  );
  const between = place.charts.slice(1).map((chart) => line(0, chart.top + 0.5, place.width, chart.top + 0.5, "rule"));
  const { fine, coarse } = timeTicks(scale);
  const upright = (x: number, ink: "rule" | "hairline"): Shape =>
    line(Math.round(x) + 0.5, 0, Math.round(x) + 0.5, place.height, ink);
  const rules = [
    ...(coarse.length === 0 ? [] : fine).map((tick) => upright(tick.x, "rule")),
    ...(coarse.length === 0 ? fine : coarse.slice(1)).map((tick) => upright(tick.x, "hairline")),
  ];
  const asOfX = scale.x(model.plan.asOfAt);
  const asOf = line(asOfX, 0, asOfX, place.height, "ink", 1);
  return [
    { clip: null, shapes: [...names, ...seams, ...between] },
    { clip: plotClip(place, 0, place.height), shapes: [...rules, asOf] },
  ];
};

const stillLevels = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Group[] =>
  forEachLevel(model, place, frame, (level, chart, axis) => [
    {
      clip: chart.plot,
      shapes: [
        ...levelGround(level, chart.plot, axis, screenLevel),
        ...levelBand(level, axis, frame.scale, screenLevel),
        ...levelCompared(level, axis, frame.scale, screenLevel),
        ...levelPast(level, chart.plot, axis, frame.scale, screenLevel),
      ],
    },
    { clip: null, shapes: levelGutter(level, chart, axis, frame) },
  ]);

const liveLevels = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Group[] =>
  forEachLevel(model, place, frame, (level, chart, axis) => [
    {
      clip: chart.plot,
      shapes: [
        ...belowReserve(model, level, axis, frame),
        ...levelForecast(level, chart.plot, axis, frame.scale, screenLevel),
      ],
    },
    { clip: plotClip(place, chart.top, chart.height), shapes: overflowNotes(model, level, axis, frame) },
    { clip: null, shapes: namesBeside(model, level, chart, axis, frame) },
  ]);

/** The level charts without the lanes. */
export const levelGroups = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Group[] => [
  ...grid(model, place, frame),
  ...stillLevels(model, place, frame),
  ...liveLevels(model, place, frame),
];

/** What a drag does not change. A flight that is held is left out: it is drawn with what follows the pointer. */
export const stillGroups = (
  model: TimelineModel,
  place: Place,
  frame: ViewFrame,
  held: Held | null,
): readonly Group[] => [
  ...grid(model, place, frame),
  ...laneGroups(place, [
    ...flightShapes(model.flights, model.overdue, place, frame, held?.kind === "flight" ? held.id : null),
    ...proposalShapes(model, place, frame),
  ]),
  ...stillLevels(model, place, frame),
];

/** What follows the pointer: sorties with their statuses, ports, forecast curves, and the flight that is held. */
export const liveGroups = (
  model: TimelineModel,
  place: Place,
  frame: ViewFrame,
  held: Held | null,
): readonly Group[] => {
  const flight = held?.kind === "flight" ? model.flights.find((row) => row.id === held.id) : undefined;
  return [
    ...laneGroups(place, [
      ...portShapes(model, place, frame),
      ...sortieShapes(model, place, frame, held?.kind === "sortie" ? held.id : null),
      ...(flight === undefined ? [] : flightMark(flightBar(flight, place, frame.scale), model.overdue.has(flight.id))),
    ]),
    ...liveLevels(model, place, frame),
  ];
};

/** The old plan while something is held: its curves, and where the thing stood. */
export const ghostGroups = (model: TimelineModel, place: Place, frame: ViewFrame, held: Held): readonly Group[] => {
  const { scale } = frame;
  const flight = model.flights.find((row) => row.id === held.id);
  const sortie = model.sorties.find((row) => row.id === held.id);
  const mark: readonly Shape[] =
    flight !== undefined
      ? flightMark(flightBar(flight, place, scale))
      : sortie !== undefined
        ? [sortieMark(sortieBar(sortie, place, scale), undefined)]
        : [];
  return [
    { clip: plotClip(place, 0, place.height), shapes: mark.map(faded) },
    ...forEachLevel(model, place, frame, (level, chart, axis) => [
      { clip: chart.plot, shapes: levelGhost(level, axis, frame) },
    ]),
  ];
};

const faded = (shape: Shape): Shape =>
  shape.kind === "rect"
    ? { ...shape, alpha: 0.45, dash: [3, 3] }
    : shape.kind === "path"
      ? { ...shape, alpha: 0.45 }
      : shape;
