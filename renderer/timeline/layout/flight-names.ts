/**
 * Names of flights: beside the block, else on the shaft, else in the block; whole where there is room, else the part that
 * tells the flight apart, else cut with "…".
 */
import { fitted } from "../../../app/picture/fitted.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Ink } from "../../../app/picture/ink.ts";
import type { Shape } from "../../../app/picture/shape.ts";
import type { FlightBar } from "./bar.ts";
import type { Lane } from "./place.ts";
import { NAME_REACH, type ViewFrame } from "./view-frame.ts";

const SIZE = 12;
/** Free pixels between a name and what stands beside it. */
const GAP = 5;
/** Pixels of the shaft that stay in sight on either side of a name on it. */
const SHAFT_LEFT = 6;

/** Where a name could stand. `ground`: drawn under it where it would cover a line; null: nothing is there. */
interface Room {
  readonly x: number;
  readonly width: number;
  readonly ground: Ink | null;
  readonly ink: Ink;
}

/** What the words of a bar are drawn in. */
export const inkOf = ({ status }: Flight): Ink => (status === "lost" || status === "cancelled" ? "ink-soft" : "ink");

/** From the end of the block to the next bar of its row. */
const besideRoom = (bar: FlightBar, next: FlightBar | undefined, frame: ViewFrame): Room => {
  const x = Math.max(bar.endX, frame.scale.left) + GAP;
  const until = (next?.x ?? frame.scale.right + NAME_REACH) - GAP;
  return { x, width: bar.endX < frame.scale.left ? 0 : until - x, ground: null, ink: inkOf(bar.flight) };
};

/** The part of the shaft that is in sight. */
const shaftRoom = (bar: FlightBar, frame: ViewFrame): Room => {
  const x = Math.max(bar.x, frame.scale.left) + SHAFT_LEFT;
  const until = Math.min(bar.arriveX, frame.scale.right) - SHAFT_LEFT;
  return { x, width: until - x, ground: "sheet", ink: inkOf(bar.flight) };
};

/** The part of the block that is in sight; of a firm flight either side of its stroke. */
const blockRooms = (bar: FlightBar, frame: ViewFrame): readonly Room[] => {
  const { status } = bar.flight;
  const x = Math.max(bar.arriveX, frame.scale.left) + GAP;
  const until = Math.min(bar.endX, frame.scale.right) - GAP;
  const ground: Ink = status === "arrived" ? "ink-soft" : status === "departed" ? "hairline" : "raised";
  const ink: Ink = status === "arrived" ? "sheet" : inkOf(bar.flight);
  // A lost one has its cross in the middle.
  if (status !== "firm" && status !== "lost") return [{ x, width: until - x, ground, ink }];
  const middle = (bar.arriveX + Math.max(bar.endX, bar.arriveX + 4)) / 2;
  const afterX = Math.max(x, middle + GAP + 4);
  return [
    { x, width: Math.min(until, middle - GAP - 4) - x, ground, ink },
    { x: afterX, width: until - afterX, ground, ink },
  ];
};

/**
 * The part of a name that tells it apart among `others`: without the lane's title ("Packhorse 7" is "7"), else its last
 * word if no other ends in it ("Return cargo by the far side 12" is "12"), else all of it.
 */
export const tellingPart = (name: string, laneTitle: string, others: readonly string[]): string => {
  if (name.startsWith(`${laneTitle} `)) return name.slice(laneTitle.length + 1);
  const lastWord = (text: string): string => text.slice(text.lastIndexOf(" ") + 1);
  const last = lastWord(name);
  return others.some((other) => other !== name && lastWord(other) === last) ? name : last;
};

interface Named {
  readonly text: string;
  readonly room: Room;
}

/** The first words that have room, each tried in every place before the next; then the longest cut that is still a name. */
const placed = (name: string, words: readonly string[], rooms: readonly Room[], frame: ViewFrame): Named | null => {
  const width = (text: string): number => frame.measure(text, SIZE);
  for (const text of words) {
    const room = rooms.find((each) => width(text) <= each.width);
    if (room !== undefined) return { text, room };
  }
  const widest = rooms.toSorted((a, b) => b.width - a.width)[0];
  if (widest === undefined) return null;
  const text = fitted(name, widest.width, width);
  return text === "" ? null : { text, room: widest };
};

const namedShapes = ({ text, room }: Named, bar: FlightBar, frame: ViewFrame): readonly Shape[] => {
  const width = frame.measure(text, SIZE);
  // On the shaft in the middle of what is seen of it; elsewhere at the left.
  const x = room.ground === "sheet" ? room.x + (room.width - width) / 2 : room.x;
  const y = bar.y + bar.height / 2;
  const words: Shape = { kind: "text", x, y, text, ink: room.ink, size: SIZE, anchor: "start" };
  if (room.ground === null) return [words];
  return [
    { kind: "rect", x: x - 3, y: bar.y + 1.5, width: width + 6, height: bar.height - 3, fill: room.ground, edge: null },
    words,
  ];
};

/** Names of one lane's flights: whole ones beside the blocks if every one has room there, else without what the title says. */
export const laneNames = (
  bars: readonly FlightBar[],
  overdue: ReadonlySet<string>,
  lane: Pick<Lane, "title">,
  frame: ViewFrame,
): readonly Shape[] => {
  const ordered = bars.toSorted((a, b) => a.x - b.x);
  const spots = ordered.map((bar, index) => {
    const next = ordered.slice(index + 1).find((other) => other.y === bar.y);
    return { bar, beside: besideRoom(bar, next, frame) };
  });
  const isEndSeen = ({ endX }: FlightBar): boolean => endX >= frame.scale.left && endX <= frame.scale.right;
  const isWhole = spots.every(
    ({ bar, beside }) => !isEndSeen(bar) || frame.measure(bar.flight.name, SIZE) <= beside.width,
  );
  const allNames = ordered.map(({ flight }) => flight.name);
  return spots.flatMap(({ bar, beside }) => {
    const { id, name } = bar.flight;
    const short = tellingPart(name, lane.title, allNames);
    // A name that the lane's title begins gives that up first; any other is first tried whole.
    const shown = !isWhole && name.startsWith(`${lane.title} `) ? short : name;
    const words = [...(overdue.has(id) ? [`${shown}, overdue`, `${short}, overdue`] : []), shown, short];
    const found = placed(shown, words, [beside, shaftRoom(bar, frame), ...blockRooms(bar, frame)], frame);
    return found === null ? [] : namedShapes(found, bar, frame);
  });
};
