/** What is on screen now, for the pointer and the keys; and holding a thing over it, painted without React. */
import type { SupplyGlance } from "../../../app/supply/answer.ts";
import type { Group } from "../../../app/picture/shape.ts";
import { type Grab } from "../drag/move.ts";
import { type Hold, hold } from "../drag/hold.ts";
import { ghostGroups, liveGroups, stillGroups } from "../layout/compose.ts";
import { cursorGroups, heldGroups } from "../layout/cursor.ts";
import { headGroups } from "../layout/head.ts";
import type { TimelineRow } from "../layout/items.ts";
import type { Place } from "../layout/place.ts";
import type { ViewFrame } from "../layout/view-frame.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import type { Painter } from "./painter.ts";

export interface Stage {
  readonly model: TimelineModel;
  readonly place: Place;
  readonly frame: ViewFrame;
  readonly rows: readonly TimelineRow[];
  readonly painter: Painter;
  /** Changes when theme, fonts or pixel density do. */
  readonly look: string;
}

/** Draws everything at rest. */
export const paintAtRest = ({ model, place, frame, painter }: Stage): void => {
  painter.head(headGroups(model, frame, place.width));
  painter.base([...stillGroups(model, place, frame, null), ...liveGroups(model, place, frame, null)]);
  painter.active([]);
};

/** Draws the cursor at a pixel; null: takes it away. */
export const paintCursor = ({ model, place, frame, painter }: Stage, x: number | null): void =>
  painter.active(x === null ? [] : cursorGroups(model, place, frame, x));

const heldPicture = (stage: Stage, model: TimelineModel, grab: Grab): readonly Group[] => [
  ...liveGroups(model, stage.place, stage.frame, grab),
  ...heldGroups(model, stage.place, stage.frame, grab),
];

/** Takes a thing into the hand: the base keeps what stays and the ghost of the old plan, the rest follows. */
export const takeHold = (stage: Stage, grab: Grab, follow: (glance: SupplyGlance) => void): Hold => {
  const { model, place, frame, painter } = stage;
  painter.base([...stillGroups(model, place, frame, grab), ...ghostGroups(model, place, frame, grab)]);
  painter.active(heldPicture(stage, model, grab));
  return hold(model, grab, {
    paint: (changed) => {
      painter.active(heldPicture(stage, changed, grab));
      painter.head(headGroups(changed, frame, place.width));
      follow(changed.glance);
    },
    requestFrame: (run) => requestAnimationFrame(run),
    cancelFrame: (id) => cancelAnimationFrame(id),
  });
};
