/**
 * Something held in the hand, by pointer or by keys: proposals are joined per frame, each frame computes the forecast
 * of the moved plan and hands it to the painter. Nothing of React, no state of the page, until it is put down.
 */
import type { Change } from "../../../app/entity/entities.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { beginMeasures, measureFrame } from "./measures.ts";
import { type Grab, isUnmoved, moved } from "./move.ts";
import { movedModel } from "./moved-model.ts";

export interface Hold {
  readonly grab: Grab;
  /** Proposes a span by which the thing is moved from where it was, ms; shown with the next frame. */
  readonly moveBy: (deltaMs: number) => void;
  /** The same, computed and painted at once, for a step by key. */
  readonly stepTo: (deltaMs: number) => TimelineModel;
  /** The change as last proposed; null: nothing is moved. */
  readonly proposal: () => Change | null;
  /** Lets go; no further frame is painted. */
  readonly release: () => void;
}

export interface HoldWith {
  /** Paints the moved plan on the active layer. */
  readonly paint: (model: TimelineModel) => void;
  readonly requestFrame: (frame: () => void) => number;
  readonly cancelFrame: (id: number) => void;
}

export const hold = (model: TimelineModel, grab: Grab, using: HoldWith): Hold => {
  beginMeasures();
  let wanted = 0;
  let shown: number | null = null;
  let change: Change | null = null;
  let frame: number | null = null;
  let last = model;

  const show = (): TimelineModel => {
    if (shown === wanted) return last;
    const begunAt = performance.now();
    shown = wanted;
    change = moved(model.plan, grab, wanted);
    last = change === null ? model : movedModel(model, change);
    using.paint(last);
    measureFrame(begunAt);
    return last;
  };

  const release = (): void => {
    if (frame !== null) using.cancelFrame(frame);
    frame = null;
  };

  return {
    grab,
    moveBy: (deltaMs) => {
      wanted = deltaMs;
      frame ??= using.requestFrame(() => {
        frame = null;
        show();
      });
    },
    stepTo: (deltaMs) => {
      release();
      wanted = deltaMs;
      return show();
    },
    proposal: () => {
      const latest = moved(model.plan, grab, wanted);
      return latest === null || isUnmoved(model.plan, latest) ? null : latest;
    },
    release,
  };
};

/** What the undo menu says of a move. */
export const moveLabel = (model: TimelineModel, grab: Grab): string => {
  const rows = grab.kind === "flight" ? model.plan.flights : model.plan.sorties;
  const row = rows.find((candidate) => candidate.id === grab.id);
  const name = row?.name ?? "it";
  if (grab.grip === "body") return `Move ${name}`;
  const part =
    grab.kind === "flight"
      ? { start: "departure", arrival: "arrival", end: "time at the port" }[grab.grip]
      : { start: "loading", arrival: "return", end: "return" }[grab.grip];
  return `Move ${part} of ${name}`;
};
