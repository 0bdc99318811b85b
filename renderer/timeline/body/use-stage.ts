/** Puts the stage together from the state: model, place, time axis, items; and keeps it painted. */
import { type RefObject, useLayoutEffect, useMemo, useRef, useState } from "react";
import { type Stretch, clampStretch, timeScale } from "../../charts/time-scale.ts";
import { useApp } from "../../state/use-session.ts";
import { HEAD_HEIGHT } from "../layout/head.ts";
import { timelineRows } from "../layout/items.ts";
import { GUTTER, placeTimeline } from "../layout/place.ts";
import { timelineModel } from "../model/timeline-model.ts";
import { type Painter, createPainter } from "./painter.ts";
import { type Stage, paintAtRest } from "./stage.ts";
import { useRepaint } from "./use-repaint.ts";
import type { Size } from "./use-size.ts";

export interface CanvasRefs {
  readonly within: RefObject<HTMLElement | null>;
  readonly head: RefObject<HTMLCanvasElement | null>;
  readonly base: RefObject<HTMLCanvasElement | null>;
  readonly active: RefObject<HTMLCanvasElement | null>;
}

/** The painter of the mounted canvases; null until they are. */
const usePainter = (refs: CanvasRefs): Painter | null => {
  const [painter, setPainter] = useState<Painter | null>(null);
  useLayoutEffect(() => {
    const { within, head, base, active } = refs;
    if (within.current === null || head.current === null || base.current === null || active.current === null) return;
    setPainter(createPainter({ head: head.current, base: base.current, active: active.current }, within.current));
  }, [refs]);
  return painter;
};

/** What the timeline shows as a whole; null: nothing to show yet. `beforePaint` puts down what is held. */
export const useStage = (refs: CanvasRefs, size: Size | null, beforePaint: () => void): Stage | null => {
  const current = useApp((state) => state.current);
  const compare = useApp((state) => state.compare);
  const depotId = useApp((state) => state.depotId);
  const stretch: Stretch | null = useApp((state) => state.timeWindow);
  const unit = useApp((state) => state.massUnit);
  const painter = usePainter(refs);
  const repaint = useRepaint();

  const model = useMemo(
    () => (current === null ? null : timelineModel(current, compare, depotId)),
    [current, compare, depotId],
  );
  const width = size?.width ?? 0;
  const height = size?.height ?? 0;
  const place = useMemo(
    () => (model === null || width < GUTTER.left + GUTTER.right + 60 ? null : placeTimeline(model, width, height)),
    [model, width, height],
  );
  const stage = useMemo((): Stage | null => {
    if (model === null || place === null || painter === null) return null;
    const { fromAt, untilAt } = clampStretch(stretch ?? model.whole, model.whole);
    const scale = timeScale(fromAt, untilAt, place.left, place.right);
    const frame = { scale, unit, measure: painter.measure };
    return { model, place, frame, painter, rows: timelineRows(model, place, scale, unit) };
  }, [model, place, painter, stretch, unit]);

  const putDown = useRef(beforePaint);
  useLayoutEffect(() => {
    putDown.current = beforePaint;
  });
  useLayoutEffect(() => {
    if (stage === null) return;
    putDown.current();
    stage.painter.retheme();
    stage.painter.resize(stage.place.width, HEAD_HEIGHT, stage.place.height);
    paintAtRest(stage);
  }, [stage, repaint]);
  return stage;
};
