/** A picture: vector shapes in points, y downwards. Writers draw it on a page, in SVG, anywhere. */

/** Ink by meaning; each writer has the colour for its ground. */
export type Ink =
  | "text"
  | "quiet"
  | "hairline"
  | "ground"
  | "warning"
  | "first"
  | "second"
  | "third"
  | "fourth"
  | "fifth"
  | "sixth";

export type Shape =
  | {
      readonly kind: "path";
      /** SVG path data. */
      readonly path: string;
      readonly stroke: Ink | null;
      readonly fill: Ink | null;
      /** Share of the fill that covers, 0 to 1. */
      readonly fillOpacity: number;
      readonly width: number;
      readonly dash: readonly number[];
    }
  | {
      readonly kind: "text";
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly ink: Ink;
      readonly anchor: "start" | "middle" | "end";
      readonly isBold: boolean;
    };

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

export const pathShape = (
  path: string,
  look: {
    readonly stroke?: Ink;
    readonly fill?: Ink;
    readonly fillOpacity?: number;
    readonly width?: number;
    readonly dash?: readonly number[];
  },
): Shape => ({
  kind: "path",
  path,
  stroke: look.stroke ?? null,
  fill: look.fill ?? null,
  fillOpacity: look.fillOpacity ?? 1,
  width: look.width ?? 1,
  dash: look.dash ?? [],
});

export const textShape = (
  x: number,
  y: number,
  text: string,
  look: {
    readonly size?: number;
    readonly ink?: Ink;
    readonly anchor?: "start" | "middle" | "end";
    readonly isBold?: boolean;
  } = {},
): Shape => ({
  kind: "text",
  x,
  y,
  text,
  size: look.size ?? 8,
  ink: look.ink ?? "text",
  anchor: look.anchor ?? "start",
  isBold: look.isBold ?? false,
});

/** Inks of the propellants by their place in the ledger. */
const propellantInks: readonly Ink[] = ["first", "second", "third", "fourth", "fifth", "sixth"];
export const propellantInk = (position: number): Ink => propellantInks[position % propellantInks.length] ?? "first";
