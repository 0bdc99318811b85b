/** Shapes moved to another place, so that pictures can stand inside others. */
import type { Box, Group, Shape } from "./shape.ts";

const movedBox = <B extends Box>(box: B, dx: number, dy: number): B => ({ ...box, x: box.x + dx, y: box.y + dy });

const movedPoints = (points: ArrayLike<number>, dx: number, dy: number): readonly number[] =>
  Array.from(points, (value, index) => value + (index % 2 === 0 ? dx : dy));

const movedShape = (shape: Shape, dx: number, dy: number): Shape =>
  shape.kind === "path" || shape.kind === "area"
    ? { ...shape, points: movedPoints(shape.points, dx, dy) }
    : { ...shape, x: shape.x + dx, y: shape.y + dy };

/** `dx`, `dy` in pixels. */
export const moved = (groups: readonly Group[], dx: number, dy: number): readonly Group[] =>
  groups.map(({ clip, shapes }) => ({
    clip: clip === null ? null : movedBox(clip, dx, dy),
    shapes: shapes.map((shape) => movedShape(shape, dx, dy)),
  }));
