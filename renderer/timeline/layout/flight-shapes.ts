/**
 * Flights: a thin shaft from departure to arrival, a block for the berth after it.
 *
 *   ├──────────────▐██▌ Packhorse 7
 *   departs  arrives  leaves the port
 */
import type { Flight } from "../../../app/ledger/entity/flight.ts";
import { type Ink, type Shape, line } from "../../charts/shape.ts";
import { withoutOverlap } from "../../charts/label-placement.ts";
import { type FlightBar, flightBar } from "./bar.ts";
import type { Place } from "./place.ts";
import { type ViewFrame, fitted } from "./view-frame.ts";

const inkOf = (flight: Flight): Ink => (flight.status === "lost" || flight.status === "cancelled" ? "ink-soft" : "ink");

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
  }
};

const cross = (x: number, y: number): readonly Shape[] => [
  line(x - 4, y - 4, x + 4, y + 4, "status-short", 1.75),
  line(x - 4, y + 4, x + 4, y - 4, "status-short", 1.75),
];

/** The mark of one flight without its name. */
export const flightMark = (bar: FlightBar): readonly Shape[] => {
  const middle = bar.y + bar.height / 2;
  const ink = inkOf(bar.flight);
  const isUnderWay = bar.flight.status === "departed" || bar.flight.status === "arrived";
  const shaft = line(bar.x, middle, Math.max(bar.arriveX, bar.x), middle, ink, isUnderWay ? 2.25 : 1.25);
  const start = line(bar.x, middle - 4, bar.x, middle + 4, ink, 1.25);
  return [shaft, start, ...berthShapes(bar)];
};

interface Named {
  readonly bar: FlightBar;
  readonly text: string;
  readonly x: number;
  readonly from: number;
  readonly until: number;
}

/** Names beside the blocks where there is room before the next bar of the row; short ones are not shown at all. */
const names = (bars: readonly FlightBar[], frame: ViewFrame): readonly Shape[] => {
  const rows = new Map<number, FlightBar[]>();
  for (const bar of bars) rows.set(bar.y, [...(rows.get(bar.y) ?? []), bar]);
  const wanted: Named[] = [];
  for (const row of rows.values()) {
    const ordered = [...row].sort((a, b) => a.x - b.x);
    ordered.forEach((bar, index) => {
      const next = ordered[index + 1]?.x ?? frame.scale.right;
      const x = Math.max(bar.endX, frame.scale.left) + 5;
      const text = fitted(bar.flight.name, next - 6 - x, (candidate) => frame.measure(candidate, 12));
      if (text !== "" && bar.endX >= frame.scale.left)
        wanted.push({ bar, text, x, from: x, until: x + frame.measure(text, 12) });
    });
  }
  return withoutOverlapByRow(wanted).map(({ bar, text, x }) => ({
    kind: "text",
    x,
    y: bar.y + bar.height / 2,
    text,
    ink: inkOf(bar.flight) === "ink" ? "ink" : "ink-soft",
    size: 12,
    anchor: "start",
  }));
};

const withoutOverlapByRow = (named: readonly Named[]): readonly Named[] => {
  const rows = new Map<number, Named[]>();
  for (const each of named) rows.set(each.bar.y, [...(rows.get(each.bar.y) ?? []), each]);
  return [...rows.values()].flatMap((row) => withoutOverlap(row, 4));
};

const isSeen = (bar: FlightBar, frame: ViewFrame): boolean =>
  bar.endX >= frame.scale.left - 2 && bar.x <= frame.scale.right + 2;

/** Every flight on screen but one that is held in the hand. */
export const flightShapes = (
  flights: readonly Flight[],
  place: Place,
  frame: ViewFrame,
  heldId: string | null,
): readonly Shape[] => {
  const bars = flights
    .filter((flight) => flight.id !== heldId)
    .map((flight) => flightBar(flight, place, frame.scale))
    .filter((bar) => isSeen(bar, frame));
  return [...bars.flatMap(flightMark), ...names(bars, frame)];
};
