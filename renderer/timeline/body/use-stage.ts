/** Puts the stage together from the state: model, place, time axis, items. */
import { useMemo } from "react";
import { type Stretch, clampStretch, timeScale } from "../../../app/picture/time-scale.ts";
import { useCompared } from "../model/use-timeline-proposal.ts";
import { useTimelineRisk } from "../model/use-timeline-risk.ts";
import { useApp } from "../../state/use-session.ts";
import { timelineRows } from "../layout/items.ts";
import { GUTTER, placeTimeline } from "../layout/place.ts";
import { timelineModel } from "../model/timeline-model.ts";
import type { Painter } from "./painter.ts";
import type { Stage } from "./stage.ts";
import { useLook } from "./use-look.ts";
import type { Size } from "../../plot/use-size.ts";

/** Narrower than this the plot is not drawn, pixels. */
const LEAST_PLOT = 60;

/** What the timeline shows as a whole; null: nothing to show yet, or no room. `axis`: all that can be shown, where it is more than the depot's own. */
export const useStage = (
  painter: Painter | null,
  { width, height }: Size,
  depotId: string | null,
  axis: Stretch | null,
): Stage | null => {
  const current = useApp((state) => state.current);
  const { compare, proposal } = useCompared();
  const filter = useApp((state) => state.filter);
  const stretch = useApp((state) => state.timeWindow);
  const unit = useApp((state) => state.massUnit);
  const look = useLook();
  const risk = useTimelineRisk();

  const own = useMemo(
    () => (current === null ? null : timelineModel(current, compare, depotId, risk, proposal, filter)),
    [current, compare, depotId, risk, proposal, filter],
  );
  const model = useMemo(() => (own === null || axis === null ? own : { ...own, whole: axis }), [own, axis]);
  const place = useMemo(
    () =>
      model === null || width < GUTTER.left + GUTTER.right + LEAST_PLOT ? null : placeTimeline(model, width, height),
    [model, width, height],
  );
  return useMemo((): Stage | null => {
    if (model === null || place === null || painter === null) return null;
    const { fromAt, untilAt } = clampStretch(stretch ?? model.whole, model.whole);
    const scale = timeScale(fromAt, untilAt, place.left, place.right);
    const frame = { scale, unit, measure: painter.measure };
    return { model, place, frame, painter, rows: timelineRows(model, place, scale, unit), look };
  }, [model, place, painter, stretch, unit, look]);
};
