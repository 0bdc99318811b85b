/** Kilograms from the ground over the number of sorties, two ways against each other, and below it what moves their break-even. */
import { breakEvenShapes, type BreakEvenShown } from "../../../app/picture/break-even-picture.ts";
import { screenLook, type Size } from "../../../app/picture/look.ts";
import { movedHeight, movedShapes } from "../../../app/picture/moved-picture.ts";
import { plotOf } from "../../../app/picture/panel.ts";
import type { Picture } from "../../../app/picture/shape.ts";
import type { Moved } from "../../../app/ways/break-even.ts";

export interface AcrossShown extends BreakEvenShown {
  /** At most so many as are drawn. */
  readonly moved: readonly Moved[];
}

/** How many inputs are drawn. */
const MOVED_SHOWN = 5;

export const acrossPicture = ({ moved, ...shown }: AcrossShown, size: Size): Picture => {
  const { found } = shown;
  const rows = found.kind === "at" ? moved.slice(0, MOVED_SHOWN) : [];
  const below = rows.length === 0 ? 0 : movedHeight(rows.length, screenLook);
  const plot = plotOf({ ...size, height: size.height - below }, screenLook);
  const box = { left: 12, right: size.width - screenLook.margin.right, top: size.height - below };
  return {
    ...size,
    groups: [
      {
        clip: null,
        shapes: [
          ...breakEvenShapes(shown, plot, screenLook),
          ...(found.kind === "at" && rows.length > 0 ? movedShapes(found, rows, box, screenLook) : []),
        ],
      },
    ],
  };
};
