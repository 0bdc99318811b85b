/** A picture with its lengths in hundredths: enough for paper, and the same bytes on every machine. */
import type { Box, Picture, Shape } from "./shape.ts";

const hundredths = (value: number): number => Math.round(value * 100) / 100;

const roundedBox = ({ x, y, width, height }: Box): Box => ({
  x: hundredths(x),
  y: hundredths(y),
  width: hundredths(width),
  height: hundredths(height),
});

const roundedShape = (shape: Shape): Shape => {
  if (shape.kind === "path" || shape.kind === "area") return { ...shape, points: Array.from(shape.points, hundredths) };
  if (shape.kind === "rect") return { ...shape, ...roundedBox(shape) };
  return { ...shape, x: hundredths(shape.x), y: hundredths(shape.y) };
};

export const rounded = ({ width, height, groups }: Picture): Picture => ({
  width: hundredths(width),
  height: hundredths(height),
  groups: groups.map(({ clip, shapes }) => ({
    clip: clip === null ? null : roundedBox(clip),
    shapes: shapes.map(roundedShape),
  })),
});
