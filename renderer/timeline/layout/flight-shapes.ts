/**
 * Flights: a thin shaft from departure to arrival, a block for the berth after it.
 *
 *   ├──────────────▐██▌ Packhorse 7
 *   departs  arrives  leaves the port
 */
import { screenLevel } from "../../../app/picture/level/level-look.ts";
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import { type Shape, line } from "../../../app/picture/shape.ts";
import { assumedHatch } from "./assumed-look.ts";
import { type FlightBar, flightBar } from "./bar.ts";
import { inkOf, laneNames } from "./flight-names.ts";
import type { Place } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

/** A block: outlined when planned, with a heavy edge when firm, full when it is a fact. */
const berthShapes = (bar: FlightBar): readonly Shape[] => {
  const { flight, y, height, arriveX, endX } = bar;
  const width = Math.max(4, endX - arriveX);
  const box = { x: arriveX, y, width, height };
  switch (flight.status) {
    case "planned":
      return [{ kind: "rect", ...box, fill: "raised", edge: "ink", edgeWidth: 1.25, corner: 2 }];
    case "firm":
      return [
        { kind: "rect", ...box, fill: "raised", edge: "ink", edgeWidth: 2.25, corner: 2 },
        line(arriveX + width / 2, y + 4, arriveX + width / 2, y + height - 4, "ink", 2),
      ];
    case "departed":
      return [{ kind: "rect", ...box, fill: "hairline", edge: "ink", edgeWidth: 1.25, corner: 2 }];
    case "arrived":
      return [{ kind: "rect", ...box, fill: "ink-soft", edge: "ink-soft", corner: 2 }];
    case "lost":
    case "cancelled":
      return [
        { kind: "rect", ...box, fill: null, edge: "ink-soft", edgeWidth: 1, corner: 2, dash: [2, 2] },
        ...(flight.status === "lost" ? cross(arriveX + width / 2, y + height / 2) : []),
      ];
    default:
      return missingCase(flight.status);
  }
};

const cross = (x: number, y: number): readonly Shape[] => [
  line(x - 4, y - 4, x + 4, y + 4, "status-short", 1.75),
  line(x - 4, y + 4, x + 4, y - 4, "status-short", 1.75),
];

/** The mark of one flight without its name. */
export const flightMark = (bar: FlightBar, isAssumed = false): readonly Shape[] => {
  const middle = bar.y + bar.height / 2;
  const ink = inkOf(bar.flight);
  const isUnderWay = bar.flight.status === "departed" || bar.flight.status === "arrived";
  const shaft = line(bar.x, middle, Math.max(bar.arriveX, bar.x), middle, ink, isUnderWay ? 2.25 : 1.25);
  const start = line(bar.x, middle - 4, bar.x, middle + 4, ink, 1.25);
  return [
    isAssumed ? { ...shaft, dash: screenLevel.assumedDash } : shaft,
    start,
    ...berthShapes(bar),
    ...(isAssumed
      ? assumedHatch({ x: bar.arriveX, y: bar.y, width: Math.max(4, bar.endX - bar.arriveX), height: bar.height })
      : []),
  ];
};

/** Names of all lanes. */
const names = (
  bars: readonly FlightBar[],
  overdue: ReadonlySet<string>,
  place: Place,
  frame: ViewFrame,
): readonly Shape[] =>
  place.lanes
    .filter((lane) => lane.kind === "flights")
    .flatMap((lane) =>
      laneNames(
        bars.filter((bar) => bar.y >= lane.top && bar.y < lane.top + lane.height),
        overdue,
        lane,
        frame,
      ),
    );

const isSeen = (bar: FlightBar, frame: ViewFrame): boolean =>
  bar.endX >= frame.scale.left - 2 && bar.x <= frame.scale.right + 2;

/** Every flight on screen but one that is held in the hand. */
export const flightShapes = (
  flights: readonly Flight[],
  overdue: ReadonlySet<string>,
  place: Place,
  frame: ViewFrame,
  heldId: string | null,
): readonly Shape[] => {
  const bars = flights
    .filter((flight) => flight.id !== heldId)
    .map((flight) => flightBar(flight, place, frame.scale))
    .filter((bar) => isSeen(bar, frame));
  return [...bars.flatMap((bar) => flightMark(bar, overdue.has(bar.flight.id))), ...names(bars, overdue, place, frame)];
};
