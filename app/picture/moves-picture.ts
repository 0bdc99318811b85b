/** What moved between two issues: a row each, a ring where it stood, a dot where it stands, a line from one to the other. */
import { timeAxis } from "./time-axis.ts";
import type { Ink } from "./ink.ts";
import { type DotShape, line, type Picture, type Shape, wordsOn } from "./shape.ts";
import { timeScale } from "./time-scale.ts";

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

const ring = (x: number, y: number, ink: Ink): DotShape => ({
  kind: "dot",
  x,
  y,
  radius: RADIUS,
  fill: "sheet",
  edge: ink,
  edgeWidth: 0.8,
});

const dot = (x: number, y: number, ink: Ink): DotShape => ({ ...ring(x, y, ink), fill: ink });

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
  const ink = isShort ? "status-short" : "ink";
  const name = move.name.length > MAX_NAME ? `${move.name.slice(0, MAX_NAME - 1)}…` : move.name;
  const [from, to] = [move.thenAt, move.nowAt];
  return [
    wordsOn(0, y + 2.5, name, { size: 7.5, ink, isBold: isShort }),
    ...(from !== null && to !== null && from !== to ? [line(x(from), y, x(to), y, ink, 0.9)] : []),
    ...(from === null ? [] : [ring(x(from), y, ink)]),
    ...(to === null ? [] : [dot(x(to), y, ink)]),
    wordsOn(width - STATUSES + 6, y + 2.5, statusWords(move), { size: 7.5, ink, isBold: isShort }),
  ];
};

/** Width in points; as high as it has rows. */
export const movesPicture = (moves: readonly Move[], width: number): Picture => {
  const instants = moves.flatMap(({ thenAt, nowAt }) => [thenAt, nowAt]).filter((at) => at !== null);
  const top = 20;
  const plot = { left: NAMES, right: width - STATUSES, top, bottom: top + moves.length * ROW };
  const [first, last] = [Math.min(...instants), Math.max(...instants)];
  const scale = timeScale(first - 5 * DAY_MS, last + 5 * DAY_MS, plot.left, plot.right);
  const key = [
    ring(NAMES + RADIUS, 5, "ink-soft"),
    wordsOn(NAMES + 10, 7.5, "then", { size: 7, ink: "ink-soft" }),
    dot(NAMES + 40, 5, "ink-soft"),
    wordsOn(NAMES + 47, 7.5, "now", { size: 7, ink: "ink-soft" }),
  ];
  const rules = moves.map((_, place) => line(NAMES, top + place * ROW, plot.right, top + place * ROW, "rule", 0.3));
  return {
    width,
    height: plot.bottom + 18,
    groups: [
      {
        clip: null,
        shapes: [
          ...key,
          ...rules,
          ...timeAxis(plot, scale),
          ...moves.flatMap((move, place) => rowShapes(move, place, top, width, scale.x)),
        ],
      },
    ],
  };
};
