/** From where on a picture must be drawn anew: the leftmost pixel at which two pictures of the same thing differ. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Group, Measure, Shape } from "../../app/picture/shape.ts";

/** Widest line, halo or dot beyond the points of a shape, pixels. */
const REACH = 8;

const leftOfPoints = (points: ArrayLike<number>, from: number, until: number): number => {
  let left = Infinity;
  for (let i = Math.max(0, from); i < until && i < points.length; i += 2) left = Math.min(left, points[i] ?? Infinity);
  return left;
};

const leftOf = (shape: Shape, measure: Measure): number => {
  switch (shape.kind) {
    case "path":
    case "area":
      return leftOfPoints(shape.points, 0, shape.points.length);
    case "rect":
      return shape.x;
    case "text": {
      const width = shape.anchor === "start" ? 0 : measure(shape.text, shape.size, shape.isBold);
      return shape.x - (shape.anchor === "middle" ? width / 2 : width);
    }
    case "dot":
    case "status":
      return shape.x - shape.radius;
    default:
      return missingCase(shape);
  }
};

const isSameList = (a: readonly number[] | undefined, b: readonly number[] | undefined): boolean =>
  a === b || (a !== undefined && a.length === b?.length && a.every((value, i) => value === b[i]));

/** Alike in everything but the points of a line or an area. */
const isAlike = (a: Shape, b: Shape): boolean => {
  const one = a as unknown as Readonly<Record<string, unknown>>;
  const other = b as unknown as Readonly<Record<string, unknown>>;
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every(
      (key) =>
        key === "points" ||
        (key === "dash"
          ? isSameList(one[key] as readonly number[], other[key] as readonly number[] | undefined)
          : one[key] === other[key]),
    )
  );
};

/** Two lines or areas that are alike differ between the last point before and the first point after what differs. */
const changedPoints = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  const shorter = Math.min(a.length, b.length);
  let start = 0;
  while (start < shorter && a[start] === b[start]) start += 1;
  if (start === shorter && a.length === b.length) return Infinity;
  start -= start % 2;
  let end = 0;
  while (end < shorter - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end += 1;
  end -= end % 2;
  return Math.min(leftOfPoints(a, start - 2, a.length - end + 2), leftOfPoints(b, start - 2, b.length - end + 2));
};

const changedShape = (a: Shape, b: Shape, measure: Measure): number => {
  if (a === b) return Infinity;
  if (isAlike(a, b)) return "points" in a && "points" in b ? changedPoints(a.points, b.points) : Infinity;
  return Math.min(leftOf(a, measure), leftOf(b, measure));
};

/** Shapes that stand at the same place from the front, or from the back where some came or went between. */
const changedShapes = (a: readonly Shape[], b: readonly Shape[], measure: Measure): number => {
  const isSame = (x: Shape | undefined, y: Shape | undefined): boolean =>
    x !== undefined && y !== undefined && changedShape(x, y, measure) === Infinity;
  let left = Infinity;
  if (a.length === b.length) {
    for (let i = 0; i < a.length; i += 1) {
      const [x, y] = [a[i], b[i]];
      if (x !== undefined && y !== undefined) left = Math.min(left, changedShape(x, y, measure));
    }
    return left;
  }
  let start = 0;
  while (isSame(a[start], b[start])) start += 1;
  let end = 0;
  const most = Math.min(a.length, b.length) - start;
  while (end < most && isSame(a[a.length - 1 - end], b[b.length - 1 - end])) end += 1;
  for (const shapes of [a.slice(start, a.length - end), b.slice(start, b.length - end)])
    for (const shape of shapes) left = Math.min(left, leftOf(shape, measure));
  return left;
};

const isSameClip = (a: Group["clip"], b: Group["clip"]): boolean =>
  a === b || (a !== null && b !== null && a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height);

/** −Infinity: everything, for the pictures are not built alike; Infinity: nothing. */
export const changedFrom = (before: readonly Group[], after: readonly Group[], measure: Measure): number => {
  if (before.length !== after.length) return -Infinity;
  let left = Infinity;
  for (const [index, group] of after.entries()) {
    const old = before[index];
    if (old === undefined || !isSameClip(old.clip, group.clip)) return -Infinity;
    left = Math.min(left, changedShapes(old.shapes, group.shapes, measure));
  }
  return left - REACH;
};
