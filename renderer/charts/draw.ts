/** Draws a picture on a canvas. */
import { missingCase } from "../../app/ground/missing-case.ts";
import { crossings } from "../../app/picture/crossings.ts";
import { type Theme, statusInk } from "../../app/picture/ink.ts";
import {
  type AreaShape,
  BASELINE,
  DOT_EDGE,
  type Group,
  type PathShape,
  type Picture,
  type RectShape,
  type Shape,
  SLASH,
  type StatusShape,
  TEXTURE_STEP,
  type TextShape,
} from "../../app/picture/shape.ts";

export type Context = CanvasRenderingContext2D;

/** `first`: index of the point from which it is traced. */
const trace = (ctx: Context, points: ArrayLike<number>, first = 0): void => {
  ctx.beginPath();
  ctx.moveTo(points[first] ?? 0, points[first + 1] ?? 0);
  for (let i = first + 2; i < points.length; i += 2) ctx.lineTo(points[i] ?? 0, points[i + 1] ?? 0);
};

/** Index of the last of the points that lie left of `fromX` from the beginning on: what is before it is not seen. */
const firstSeen = (points: ArrayLike<number>, fromX: number): number => {
  let i = 0;
  while (i + 2 < points.length && (points[i + 2] ?? 0) < fromX) i += 2;
  return i;
};

const drawPath = (ctx: Context, shape: PathShape, theme: Theme, fromX: number): void => {
  // A dashed line is drawn whole, so that its dashes stay where they are.
  trace(ctx, shape.points, shape.dash === undefined ? firstSeen(shape.points, fromX) : 0);
  ctx.strokeStyle = theme.colours[shape.ink];
  ctx.lineWidth = shape.width;
  ctx.setLineDash(shape.dash === undefined ? [] : [...shape.dash]);
  ctx.stroke();
};

/** Left, right, top and bottom of some points. */
const extentOf = (points: ArrayLike<number>) => {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 2) {
    left = Math.min(left, points[i] ?? left);
    right = Math.max(right, points[i] ?? right);
    top = Math.min(top, points[i + 1] ?? top);
    bottom = Math.max(bottom, points[i + 1] ?? bottom);
  }
  return { left, right, top, bottom };
};

const hatch = (ctx: Context, points: ArrayLike<number>): void => {
  const { left, right, top, bottom } = extentOf(points);
  const lean = bottom - top;
  const step = TEXTURE_STEP.hatched;
  ctx.beginPath();
  for (let x = Math.floor((left - lean) / step) * step + 0.5; x < right; x += step) {
    ctx.moveTo(x, bottom);
    ctx.lineTo(x + lean, top);
  }
  ctx.stroke();
};

/**
 * Upright hairlines inside an area, each drawn from edge to edge as a bar of one pixel. They are not cut out of the area
 * by clipping: without a graphics processor that took more than half of a whole frame of a drag.
 */
const rule = (ctx: Context, points: ArrayLike<number>, fromX: number): void => {
  for (const [x, ends] of crossings(points, TEXTURE_STEP.ruled, fromX))
    for (let i = 0; i + 1 < ends.length; i += 2) {
      const from = ends[i] ?? 0;
      ctx.fillRect(x, from, 1, (ends[i + 1] ?? from) - from);
    }
};

const drawArea = (ctx: Context, shape: AreaShape, theme: Theme, fromX: number): void => {
  if (shape.texture === "ruled") {
    ctx.fillStyle = theme.colours[shape.ink];
    rule(ctx, shape.points, fromX);
    return;
  }
  trace(ctx, shape.points);
  ctx.closePath();
  if (shape.texture === "flat") {
    ctx.fillStyle = theme.colours[shape.ink];
    ctx.fill();
    return;
  }
  ctx.save();
  ctx.clip();
  ctx.strokeStyle = theme.colours[shape.ink];
  ctx.lineWidth = 1;
  ctx.setLineDash([]);
  hatch(ctx, shape.points);
  ctx.restore();
};

const drawRect = (ctx: Context, shape: RectShape, theme: Theme): void => {
  ctx.beginPath();
  ctx.roundRect(shape.x, shape.y, shape.width, shape.height, shape.corner ?? 0);
  if (shape.fill !== null) {
    ctx.fillStyle = theme.colours[shape.fill];
    ctx.fill();
  }
  if (shape.edge !== null) {
    ctx.strokeStyle = theme.colours[shape.edge];
    ctx.lineWidth = shape.edgeWidth ?? 1;
    ctx.setLineDash(shape.dash === undefined ? [] : [...shape.dash]);
    ctx.stroke();
  }
};

const drawText = (ctx: Context, shape: TextShape, theme: Theme): void => {
  ctx.font = `${shape.isBold === true ? 600 : 400} ${shape.size}px ${theme.font}`;
  ctx.textAlign = shape.anchor === "middle" ? "center" : shape.anchor;
  ctx.textBaseline = "alphabetic";
  const baseline = shape.y + shape.size * BASELINE;
  if (shape.halo !== undefined) {
    ctx.strokeStyle = theme.colours[shape.halo];
    ctx.lineWidth = 3;
    ctx.lineJoin = "round";
    ctx.setLineDash([]);
    ctx.strokeText(shape.text, shape.x, baseline);
  }
  ctx.fillStyle = theme.colours[shape.ink];
  ctx.fillText(shape.text, shape.x, baseline);
};

const drawStatus = (ctx: Context, shape: StatusShape, theme: Theme): void => {
  const { x, y, radius } = shape;
  const colour = theme.colours[statusInk[shape.status]];
  ctx.strokeStyle = colour;
  ctx.fillStyle = colour;
  ctx.lineWidth = 1.5;
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.arc(x, y, radius, 0, 2 * Math.PI);
  if (shape.status === "supplied") ctx.fill();
  ctx.stroke();
  ctx.beginPath();
  if (shape.status === "thin") {
    ctx.arc(x, y, radius, Math.PI / 2, (3 * Math.PI) / 2);
    ctx.fill();
  }
  if (shape.status === "short") {
    ctx.moveTo(x - radius * SLASH, y + radius * SLASH);
    ctx.lineTo(x + radius * SLASH, y - radius * SLASH);
    ctx.stroke();
  }
};

const drawShape = (ctx: Context, shape: Shape, theme: Theme, fromX: number): void => {
  ctx.globalAlpha = "alpha" in shape ? (shape.alpha ?? 1) : 1;
  switch (shape.kind) {
    case "path":
      return drawPath(ctx, shape, theme, fromX);
    case "area":
      return drawArea(ctx, shape, theme, fromX);
    case "rect":
      return drawRect(ctx, shape, theme);
    case "text":
      return drawText(ctx, shape, theme);
    case "status":
      return drawStatus(ctx, shape, theme);
    case "dot":
      ctx.beginPath();
      ctx.arc(shape.x, shape.y, shape.radius, 0, 2 * Math.PI);
      ctx.fillStyle = theme.colours[shape.fill];
      ctx.fill();
      ctx.strokeStyle = theme.colours[shape.edge];
      ctx.lineWidth = shape.edgeWidth ?? DOT_EDGE;
      ctx.setLineDash([]);
      ctx.stroke();
      return;
    default:
      return missingCase(shape);
  }
};

/** Draws groups over what is there; what lies left of `fromX` may be left out. */
export const drawGroups = (ctx: Context, groups: readonly Group[], theme: Theme, fromX = -Infinity): void => {
  for (const { clip, shapes } of groups) {
    ctx.save();
    if (clip !== null) {
      ctx.beginPath();
      ctx.rect(clip.x, clip.y, clip.width, clip.height);
      ctx.clip();
    }
    ctx.lineJoin = "round";
    for (const shape of shapes) drawShape(ctx, shape, theme, fromX);
    ctx.restore();
  }
};

/** Clears the canvas and draws the picture; `ratio` is device pixels per CSS pixel. */
export const drawBase = (ctx: Context, picture: Picture, theme: Theme, ratio: number): void => {
  ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
  ctx.clearRect(0, 0, picture.width, picture.height);
  drawGroups(ctx, picture.groups, theme);
};

/** A line reaches at most this far beyond its points, pixels. */
const WIDEST = 4;

/** Draws anew what lies right of `fromX`; the rest of the canvas stays as it is. */
export const drawFrom = (ctx: Context, picture: Picture, theme: Theme, ratio: number, fromX: number): void => {
  // On a whole pixel, so that nothing is mixed with what was there.
  const left = Math.floor(Math.max(0, fromX) * ratio) / ratio;
  if (left >= picture.width) return;
  ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, 0, picture.width - left, picture.height);
  ctx.clip();
  ctx.clearRect(left, 0, picture.width - left, picture.height);
  drawGroups(ctx, picture.groups, theme, left - WIDEST);
  ctx.restore();
};
