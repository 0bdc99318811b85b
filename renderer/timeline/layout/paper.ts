/** The timeline, and each of its level charts alone, as pictures that can leave the program. */
import { moved } from "../../../app/picture/moved.ts";
import type { Group, Picture } from "../../../app/picture/shape.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { levelGroups, liveGroups, stillGroups } from "./compose.ts";
import { axisShapes } from "./head.ts";
import { HEAD, type Place } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

/** A level chart alone is at least this high, pixels. */
const LEAST_HEIGHT = 260;

const underAxis = (model: TimelineModel, place: Place, frame: ViewFrame, body: readonly Group[]): Picture => ({
  width: place.width,
  height: HEAD.axis + place.height,
  groups: [
    ...moved([{ clip: null, shapes: axisShapes(model, frame, place.width) }], 0, -HEAD.overview),
    ...moved(body, 0, HEAD.axis),
  ],
});

/** Lanes and levels as on screen, all of them, also what is scrolled out of sight. */
export const timelinePicture = (model: TimelineModel, place: Place, frame: ViewFrame): Picture =>
  underAxis(model, place, frame, [...stillGroups(model, place, frame, null), ...liveGroups(model, place, frame, null)]);

/** The level of one propellant; an empty picture if the depot has none of it. */
export const levelChartPicture = (
  model: TimelineModel,
  place: Place,
  frame: ViewFrame,
  propellantId: string,
): Picture => {
  const chart = place.charts.find((candidate) => candidate.propellantId === propellantId);
  const level = model.levels.find(({ propellant }) => propellant.id === propellantId);
  if (chart === undefined || level === undefined) return { width: place.width, height: HEAD.axis, groups: [] };
  const height = Math.max(LEAST_HEIGHT, chart.height);
  const plot = { ...chart.plot, y: chart.plot.y - chart.top, height: chart.plot.height + height - chart.height };
  const alone: Place = { ...place, height, lanes: [], charts: [{ ...chart, top: 0, height, plot }] };
  const ofLevel: TimelineModel = { ...model, levels: [level] };
  return underAxis(ofLevel, alone, frame, levelGroups(ofLevel, alone, frame));
};
