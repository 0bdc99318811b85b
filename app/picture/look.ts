/** How large and how heavy a picture is drawn where it is seen: one composition, two looks. */
import type { TextSize } from "./shape.ts";

export interface Look {
  /** Figures at the axes, and notes. All room about them follows from it. */
  readonly text: TextSize;
  /** Names of panels and curves. */
  readonly name: TextSize;
  /** Widths of the rules across a plot, of its edge, and of a curve. */
  readonly rule: number;
  readonly edge: number;
  readonly curve: number;
  /** Length of a tick. */
  readonly tick: number;
  /** Radius of a point on a curve or a map. */
  readonly dot: number;
  /** From one line of notes to the next. */
  readonly note: number;
  /** Of a line that marks one value. */
  readonly dash: readonly number[];
  /** Whether the edges of cells lie on whole pixels. */
  readonly isOnPixels: boolean;
  /** Whether bands are named within, where there is room; on paper their names stand at the edge in their own ink. */
  readonly isNamedInside: boolean;
  /** About the plot. */
  readonly margin: { readonly left: number; readonly top: number; readonly right: number; readonly foot: number };
}

/** Pixels. */
export const screenLook: Look = {
  text: 11,
  name: 12,
  rule: 1,
  edge: 1,
  curve: 1.5,
  tick: 4,
  dot: 3,
  note: 16,
  dash: [4, 3],
  isOnPixels: true,
  isNamedInside: true,
  margin: { left: 54, top: 24, right: 16, foot: 42 },
};

/** Points. */
export const paperLook: Look = {
  text: 7,
  name: 7.5,
  rule: 0.35,
  edge: 0.75,
  curve: 1,
  tick: 2.5,
  dot: 1.6,
  note: 10,
  dash: [2, 2],
  isOnPixels: false,
  isNamedInside: false,
  margin: { left: 44, top: 16, right: 12, foot: 26 },
};

export interface Size {
  readonly width: number;
  readonly height: number;
}
