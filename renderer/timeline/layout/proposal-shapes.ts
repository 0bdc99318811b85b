/** Ghosts of a resupply proposal: the flights that it adds in a lane of their own, a stroke through those that it leaves out. */
import { type Shape, line } from "../../../app/picture/shape.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { flightBar } from "./bar.ts";
import type { Place } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

const ghost = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Shape[] => {
  const { scale, measure } = frame;
  const bars = (model.proposal?.added ?? [])
    .filter(({ id }) => place.flightTop.has(id))
    .map((flight) => flightBar(flight, place, scale))
    .filter(({ endX, x }) => endX >= scale.left - 2 && x <= scale.right + 2);
  return bars.flatMap((bar): readonly Shape[] => {
    const middle = bar.y + bar.height / 2;
    const box = { x: bar.arriveX, y: bar.y, width: Math.max(4, bar.endX - bar.arriveX), height: bar.height, corner: 2 };
    const next = Math.min(
      scale.right,
      ...bars.filter((other) => other.y === bar.y && other.x > bar.x).map((other) => other.x),
    );
    const { name } = bar.flight;
    const fits = bar.endX + 5 + measure(name, 12) <= next - 5;
    return [
      line(bar.x, middle, bar.arriveX, middle, "accent", 1.25, [4, 3]),
      line(bar.x, middle - 4, bar.x, middle + 4, "accent", 1.25),
      { kind: "rect", ...box, fill: "accent-wash", edge: "accent", edgeWidth: 1.25, dash: [3, 2] },
      ...(fits
        ? [
            {
              kind: "text",
              x: bar.endX + 5,
              y: middle,
              text: name,
              ink: "ink-soft",
              size: 12,
              anchor: "start",
            } as const,
          ]
        : []),
    ];
  });
};

const struckOut = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Shape[] =>
  model.flights
    .filter(({ id }) => model.proposal?.leftOutIds.has(id) === true)
    .map((flight) => flightBar(flight, place, frame.scale))
    .map((bar) => line(bar.arriveX - 4, bar.y + bar.height + 1, bar.endX + 4, bar.y - 1, "accent", 2));

/** Nothing where no proposal is shown. */
export const proposalShapes = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Shape[] =>
  model.proposal === null ? [] : [...ghost(model, place, frame), ...struckOut(model, place, frame)];
