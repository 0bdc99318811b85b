/** What moved between two issues: a row each, a ring where it stood, a dot where it stands, a line from one to the other. */
import { round, timeAxis, timeScale } from "../picture/axis.ts";
import { type Picture, pathShape, type Shape, textShape } from "../picture/picture.ts";

export interface Move {
  readonly name: string;
  /** null: it is not in that issue. */
  readonly thenAt: number | null;
  readonly nowAt: number | null;
  readonly thenStatus: string;
  readonly nowStatus: string;
}

const ROW = 13;
const NAMES = 112;
const STATUSES = 96;
const RADIUS = 2.8;
const DAY_MS = 86_400_000;
/** Longer names are cut; the table has them whole. */
const MAX_NAME = 26;

const ring = (x: number, y: number): string =>
  `M${round(x - RADIUS)},${y}a${RADIUS},${RADIUS} 0 1 0 ${2 * RADIUS},0a${RADIUS},${RADIUS} 0 1 0 ${-2 * RADIUS},0Z`;

const statusWords = ({ thenStatus, nowStatus }: Move): string =>
  thenStatus === nowStatus
    ? nowStatus
    : `${thenStatus === "" ? "new" : thenStatus} → ${nowStatus === "" ? "gone" : nowStatus}`;

const rowShapes = (
  move: Move,
  place: number,
  top: number,
  width: number,
  x: (at: number) => number,
): readonly Shape[] => {
  const y = top + place * ROW;
  const isShort = move.nowStatus === "short";
  const ink = isShort ? ("warning" as const) : ("text" as const);
  const name = move.name.length > MAX_NAME ? `${move.name.slice(0, MAX_NAME - 1)}…` : move.name;
  const [from, to] = [move.thenAt, move.nowAt];
  return [
    textShape(0, y + 2.5, name, { size: 7.5, ink, isBold: isShort }),
    ...(from !== null && to !== null && from !== to
      ? [pathShape(`M${round(x(from))},${y}H${round(x(to))}`, { stroke: ink, width: 0.9 })]
      : []),
    ...(from === null ? [] : [pathShape(ring(x(from), y), { stroke: ink, fill: "ground", width: 0.8 })]),
    ...(to === null ? [] : [pathShape(ring(x(to), y), { fill: ink })]),
    textShape(width - STATUSES + 6, y + 2.5, statusWords(move), { size: 7.5, ink, isBold: isShort }),
  ];
};

/** Width in points; as high as it has rows. */
export const movesPicture = (moves: readonly Move[], width: number): Picture => {
  const instants = moves.flatMap(({ thenAt, nowAt }) => [thenAt, nowAt]).filter((at) => at !== null);
  const top = 20;
  const plot = { left: NAMES, right: width - STATUSES, top, bottom: top + moves.length * ROW };
  const [first, last] = [Math.min(...instants), Math.max(...instants)];
  const scale = timeScale(plot, first - 5 * DAY_MS, last + 5 * DAY_MS);
  const key = [
    pathShape(ring(NAMES + RADIUS, 5), { stroke: "quiet", fill: "ground", width: 0.8 }),
    textShape(NAMES + 10, 7.5, "then", { size: 7, ink: "quiet" }),
    pathShape(ring(NAMES + 40, 5), { fill: "quiet" }),
    textShape(NAMES + 47, 7.5, "now", { size: 7, ink: "quiet" }),
  ];
  const rules = moves.map((_, place) =>
    pathShape(`M${NAMES},${top + place * ROW}H${plot.right}`, { stroke: "hairline", width: 0.3 }),
  );
  return {
    width,
    height: plot.bottom + 18,
    shapes: [
      ...key,
      ...rules,
      ...timeAxis(plot, scale),
      ...moves.flatMap((move, place) => rowShapes(move, place, top, width, (at) => scale(at))),
    ],
  };
};
