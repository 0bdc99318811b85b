/** The plain shapes that a layout is made of; drawn on a canvas or written as SVG, never measured again. */
import type { SupplyStatus } from "../../app/supply/report.ts";

/** A colour token without its two dashes. */
export type Ink =
  | "ground"
  | "sheet"
  | "raised"
  | "hairline"
  | "rule"
  | "edge"
  | "ink"
  | "ink-soft"
  | "accent"
  | "accent-ink"
  | "accent-wash"
  | "status-supplied"
  | "status-thin"
  | "status-short"
  | "propellant-0"
  | "propellant-1"
  | "propellant-2"
  | "propellant-3"
  | "propellant-4"
  | "propellant-5";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A line through points, x and y in turn. */
export interface PathShape {
  readonly kind: "path";
  readonly points: ArrayLike<number>;
  readonly ink: Ink;
  readonly width: number;
  readonly alpha?: number;
  readonly dash?: readonly number[];
}

/** A closed area; flat, or ruled with upright hairlines, or hatched aslant. */
export interface AreaShape {
  readonly kind: "area";
  readonly points: ArrayLike<number>;
  readonly ink: Ink;
  readonly texture: "flat" | "ruled" | "hatched";
  readonly alpha: number;
}

export interface RectShape extends Box {
  readonly kind: "rect";
  readonly fill: Ink | null;
  readonly edge: Ink | null;
  readonly edgeWidth?: number;
  readonly corner?: number;
  readonly alpha?: number;
  readonly dash?: readonly number[];
}

export interface TextShape {
  readonly kind: "text";
  readonly x: number;
  /** Middle of the line of text. */
  readonly y: number;
  readonly text: string;
  readonly ink: Ink;
  readonly size: TextSize;
  readonly anchor: "start" | "middle" | "end";
  readonly isBold?: boolean;
  readonly alpha?: number;
  /** Drawn behind the letters, so that a line under them does not disturb. */
  readonly halo?: Ink;
}

export interface DotShape {
  readonly kind: "dot";
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly fill: Ink;
  readonly edge: Ink;
}

/** The shape of a supply status: filled, half filled, or open with a bar. */
export interface StatusShape {
  readonly kind: "status";
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly status: SupplyStatus;
  readonly alpha?: number;
}

export type Shape = PathShape | AreaShape | RectShape | TextShape | DotShape | StatusShape;

/** Shapes that are cut off at a box; null: not cut off. */
export interface Group {
  readonly clip: Box | null;
  readonly shapes: readonly Shape[];
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly groups: readonly Group[];
}

/** Text sizes of charts, in CSS pixels. */
export type TextSize = 11 | 12 | 13 | 15;

/** Width of a text in pixels; the page measures, tests estimate. */
export type Measure = (text: string, size: TextSize, isBold?: boolean) => number;

/** The colour of a propellant by its place in the list; the sixth is followed by the first. */
export const propellantInk = (position: number): Ink => propellantInks[position % propellantInks.length] ?? "ink";

const propellantInks: readonly Ink[] = [
  "propellant-0",
  "propellant-1",
  "propellant-2",
  "propellant-3",
  "propellant-4",
  "propellant-5",
];

/** A straight line. */
export const line = (
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  ink: Ink,
  width = 1,
  dash?: readonly number[],
): PathShape => ({ kind: "path", points: [x1, y1, x2, y2], ink, width, ...(dash === undefined ? {} : { dash }) });
