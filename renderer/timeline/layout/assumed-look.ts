/** How what is assumed without a record is told from facts and from plans: hatched bars, broken lines. */
import type { Box, Shape } from "../../../app/picture/shape.ts";

/** Over the bar of an overdue event. */
export const assumedHatch = ({ x, y, width, height }: Box): readonly Shape[] => [
  {
    kind: "area",
    points: [x, y, x + width, y, x + width, y + height, x, y + height],
    ink: "ink-soft",
    texture: "hatched",
    alpha: 0.7,
  },
];
