/** Port occupancy: each berth on the port that is free, and on a row of its own, hatched, where none is. */
import type { Flight } from "../../../app/entity/flight.ts";
import { type Shape, line } from "../../../app/picture/shape.ts";
import { type TimelineModel, berthEndAt } from "../model/timeline-model.ts";
import { PORT_ROW, type Place } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

interface Berth {
  readonly fromAt: number;
  readonly untilAt: number;
  /** From 0; the number of ports: none was free. */
  readonly port: number;
}

const docks = (flight: Flight): boolean => flight.status !== "lost" && flight.status !== "cancelled";

/** Berths in order of arrival, each at the first port that is free. */
export const berths = (flights: readonly Flight[], depotId: string, ports: number): readonly Berth[] => {
  const freeAt: number[] = Array.from({ length: ports }, () => -Infinity);
  return flights
    .filter((flight) => flight.depotId === depotId && docks(flight) && flight.berthDays > 0)
    .sort((a, b) => a.arriveAt - b.arriveAt)
    .map((flight) => {
      const found = freeAt.findIndex((at) => at <= flight.arriveAt);
      const untilAt = berthEndAt(flight);
      if (found >= 0) freeAt[found] = untilAt;
      return { fromAt: flight.arriveAt, untilAt, port: found >= 0 ? found : ports };
    });
};

export const portShapes = (model: TimelineModel, place: Place, frame: ViewFrame): readonly Shape[] => {
  const lane = place.lanes.find((candidate) => candidate.kind === "ports");
  if (lane === undefined) return [];
  const { scale } = frame;
  const top = lane.top + (lane.height - place.portRows * PORT_ROW) / 2;
  const { ports } = model.depot;
  const rails = Array.from({ length: ports }, (_, port) => {
    const y = top + port * PORT_ROW + PORT_ROW / 2;
    return line(scale.left, y, scale.right, y, "rule", 1);
  });
  const blocks = berths(model.allFlights, model.depot.id, ports)
    .filter((berth) => berth.untilAt >= scale.fromAt && berth.fromAt <= scale.untilAt)
    .flatMap((berth): readonly Shape[] => {
      const x = scale.x(berth.fromAt);
      const width = Math.max(2, scale.x(berth.untilAt) - x);
      const y = top + berth.port * PORT_ROW + 1.5;
      const height = PORT_ROW - 3;
      if (berth.port < ports) return [{ kind: "rect", x, y, width, height, fill: "ink-soft", edge: null, corner: 1 }];
      const points = [x, y, x + width, y, x + width, y + height, x, y + height];
      return [
        { kind: "area", points, ink: "status-short", texture: "hatched", alpha: 1 },
        { kind: "rect", x, y, width, height, fill: null, edge: "status-short", edgeWidth: 1.25 },
        ...(width > frame.measure("no port free", 11) + 8
          ? [
              {
                kind: "text",
                x: x + 4,
                y: y + height / 2,
                text: "no port free",
                ink: "status-short",
                size: 11,
                anchor: "start",
                halo: "sheet",
              } as const,
            ]
          : []),
      ];
    });
  return [...rails, ...blocks];
};
