/**
 * The plain shapes that every picture is made of, on screen and on paper: drawn on a canvas, written as SVG or laid on a page
 * of PDF, never measured again. Lengths are pixels on screen and points on paper; y grows downwards.
 */
import type { SupplyStatus } from "../supply/answer.ts";
import type { Ink } from "./ink.ts";

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
  /** Not said: {@link DOT_EDGE}. */
  readonly edgeWidth?: number;
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

/** Text sizes of charts: in points on paper, in CSS pixels on screen. */
export const textSizes = [7, 7.5, 8, 11, 12, 13, 15] as const;
export type TextSize = (typeof textSizes)[number];

/** Width of a text in pixels; the page measures, tests estimate. */
export type Measure = (text: string, size: TextSize, isBold?: boolean) => number;

/** Where nothing can measure: a letter is a little more than half as wide as the type is high. */
export const estimatedWidth: Measure = (text, size, isBold = false) => text.length * size * (isBold ? 0.58 : 0.55);

/** Distance of the hairlines of a ruled or hatched area. */
export const TEXTURE_STEP = { ruled: 4, hatched: 6 } as const;

/** Reach of the bar in the open ring of "short", in radii along each axis: the ring's own slant. */
export const SLASH = 0.7;

/** Width of the edge of a dot that states none. */
export const DOT_EDGE = 1.25;

/** From the middle of a line of text down to its baseline, in sizes of the type. */
export const BASELINE = 0.35;

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

/** How a text looks; not said: soft ink, the smallest size of the screen, from `x` on. */
export interface TextLook {
  readonly size?: TextSize;
  readonly ink?: Ink;
  readonly anchor?: TextShape["anchor"];
  readonly isBold?: boolean;
  readonly halo?: Ink;
}

/** Words about a middle line. */
export const words = (x: number, y: number, text: string, look: TextLook = {}): TextShape => ({
  kind: "text",
  x,
  y,
  text,
  ink: look.ink ?? "ink-soft",
  size: look.size ?? 11,
  anchor: look.anchor ?? "start",
  ...(look.isBold === true ? { isBold: true } : {}),
  ...(look.halo === undefined ? {} : { halo: look.halo }),
});

/** Words that stand on a baseline. */
export const wordsOn = (
  x: number,
  baseline: number,
  text: string,
  look: TextLook & { readonly size: TextSize },
): TextShape => words(x, baseline - look.size * BASELINE, text, look);

/** A filled shape through corners, x and y in turn. */
export const flatArea = (points: ArrayLike<number>, ink: Ink, alpha = 1): AreaShape => ({
  kind: "area",
  points,
  ink,
  texture: "flat",
  alpha,
});
