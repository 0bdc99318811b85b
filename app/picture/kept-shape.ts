/**
 * The two shapes that issues of reports were kept in before screen and paper had one picture. Nothing composes them any
 * more; they are written for good exactly as they were, so that an issue prints to the same bytes as on its day.
 */
import type { Ink } from "./ink.ts";
import type { Box, Shape } from "./shape.ts";

/** A line or a filled area as path data of SVG 1.1 (section 8.3). */
export interface OutlineShape {
  readonly kind: "outline";
  readonly path: string;
  readonly stroke: Ink | null;
  readonly fill: Ink | null;
  /** Share of the fill that covers, 0 to 1. */
  readonly fillOpacity: number;
  readonly width: number;
  readonly dash: readonly number[];
}

/** Text that stands on a baseline. */
export interface LetteringShape {
  readonly kind: "lettering";
  readonly x: number;
  /** Of the baseline. */
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly ink: Ink;
  readonly anchor: "start" | "middle" | "end";
  readonly isBold: boolean;
}

/** What may stand on a page: what is composed today, and what an earlier issue holds. */
export type PageShape = Shape | OutlineShape | LetteringShape;

/** A picture as a page has it; every `Picture` is one. */
export interface PagePicture {
  readonly width: number;
  readonly height: number;
  readonly groups: readonly { readonly clip: Box | null; readonly shapes: readonly PageShape[] }[];
}
