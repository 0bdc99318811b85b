/** Draws the shapes of a picture on a page of PDF as vectors. */
import { crossings } from "../../app/picture/crossings.ts";
import { statusInk } from "../../app/picture/ink.ts";
import type { LetteringShape, OutlineShape, PagePicture, PageShape } from "../../app/picture/kept-shape.ts";
import { paperTheme } from "../../app/picture/paper-theme.ts";
import {
  type AreaShape,
  BASELINE,
  DOT_EDGE,
  type PathShape,
  type RectShape,
  SLASH,
  type StatusShape,
  TEXTURE_STEP,
  type TextShape,
} from "../../app/picture/shape.ts";
import { missingCase } from "../../app/ground/missing-case.ts";
import { type Doc, forFont } from "./pdf-page.ts";

const { colours } = paperTheme;

/** Of the lines of ruled and hatched areas, points: finer than on screen, for they stand closer to the eye. */
const TEXTURE_WIDTH = 0.4;

const trace = (doc: Doc, points: ArrayLike<number>): void => {
  doc.moveTo(points[0] ?? 0, points[1] ?? 0);
  for (let i = 2; i + 1 < points.length; i += 2) doc.lineTo(points[i] ?? 0, points[i + 1] ?? 0);
};

const setDash = (doc: Doc, dash: readonly number[] | undefined): void => {
  if (dash !== undefined && dash.length > 0) doc.dash(dash[0] ?? 1, { space: dash[1] ?? dash[0] ?? 1 });
};

const drawPath = (doc: Doc, shape: PathShape): void => {
  if (shape.points.length < 4) return;
  doc.lineWidth(shape.width).lineJoin("round");
  setDash(doc, shape.dash);
  if (shape.alpha !== undefined) doc.strokeOpacity(shape.alpha);
  trace(doc, shape.points);
  doc.stroke(colours[shape.ink]);
};

/** Upright lines from edge to edge. */
const rule = (doc: Doc, shape: AreaShape): void => {
  for (const [x, ends] of crossings(shape.points, TEXTURE_STEP.ruled))
    for (let i = 0; i + 1 < ends.length; i += 2) doc.moveTo(x + 0.5, ends[i] ?? 0).lineTo(x + 0.5, ends[i + 1] ?? 0);
};

/** Lines aslant over the box of the area, which cuts them off. */
const hatch = (doc: Doc, { points }: AreaShape): void => {
  const all = Array.from(points);
  const [xs, ys] = [all.filter((_, n) => n % 2 === 0), all.filter((_, n) => n % 2 === 1)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const step = TEXTURE_STEP.hatched;
  for (let x = Math.floor((left - (bottom - top)) / step) * step; x < right; x += step)
    doc.moveTo(x, bottom).lineTo(x + bottom - top, top);
};

const drawArea = (doc: Doc, shape: AreaShape): void => {
  if (shape.points.length < 6) return;
  if (shape.texture === "flat") {
    trace(doc, shape.points);
    doc.closePath().fillOpacity(shape.alpha).fill(colours[shape.ink]);
    return;
  }
  doc.lineWidth(TEXTURE_WIDTH).strokeOpacity(shape.alpha);
  if (shape.texture === "ruled") rule(doc, shape);
  else {
    trace(doc, shape.points);
    doc.closePath().clip();
    hatch(doc, shape);
  }
  doc.stroke(colours[shape.ink]);
};

/** Fills and strokes what was traced. */
const ink = (doc: Doc, { fill, edge }: Pick<RectShape, "fill" | "edge">): void => {
  if (fill !== null && edge !== null) doc.fillAndStroke(colours[fill], colours[edge]);
  else if (fill !== null) doc.fill(colours[fill]);
  else if (edge !== null) doc.stroke(colours[edge]);
};

const drawRect = (doc: Doc, shape: RectShape): void => {
  doc.lineWidth(shape.edgeWidth ?? 1).lineJoin("round");
  setDash(doc, shape.dash);
  if (shape.alpha !== undefined) doc.opacity(shape.alpha);
  const { x, y, width, height, corner = 0 } = shape;
  if (corner > 0) doc.roundedRect(x, y, width, height, corner);
  else doc.rect(x, y, width, height);
  ink(doc, shape);
};

const drawStatus = (doc: Doc, { x, y, radius, status, alpha }: StatusShape): void => {
  const colour = colours[statusInk[status]];
  if (alpha !== undefined) doc.opacity(alpha);
  doc.lineWidth(1).circle(x, y, radius);
  if (status === "supplied") doc.fillAndStroke(colour, colour);
  else doc.stroke(colour);
  if (status === "thin") doc.path(`M${x} ${y - radius}A${radius} ${radius} 0 0 0 ${x} ${y + radius}Z`).fill(colour);
  if (status === "short") {
    const reach = radius * SLASH;
    doc
      .moveTo(x - reach, y + reach)
      .lineTo(x + reach, y - reach)
      .stroke(colour);
  }
};

const letter = (
  doc: Doc,
  { text, x, size, anchor, isBold = false }: TextShape | LetteringShape,
  baseline: number,
): void => {
  doc.font(isBold ? "bold" : "regular").fontSize(size);
  const words = forFont(text);
  const shift = anchor === "start" ? 0 : doc.widthOfString(words) / (anchor === "end" ? 1 : 2);
  // pdfkit puts the top of the line at y; ours is the baseline.
  doc.text(words, x - shift, baseline, { baseline: "alphabetic", lineBreak: false });
};

/** Width of what stands behind the letters of a text with a halo, points. */
const HALO = 2;

const drawText = (doc: Doc, shape: TextShape): void => {
  const baseline = shape.y + shape.size * BASELINE;
  if (shape.halo !== undefined) {
    doc.font(shape.isBold === true ? "bold" : "regular").fontSize(shape.size);
    const width = doc.widthOfString(forFont(shape.text));
    const left = shape.x - (shape.anchor === "start" ? 0 : width / (shape.anchor === "end" ? 1 : 2));
    doc
      .rect(left - HALO / 2, shape.y - shape.size / 2, width + HALO, shape.size)
      .fillOpacity(0.85)
      .fill(colours[shape.halo]);
    doc.fillOpacity(1);
  }
  if (shape.alpha !== undefined) doc.fillOpacity(shape.alpha);
  doc.fillColor(colours[shape.ink]);
  letter(doc, shape, baseline);
};

/** As issues of its day were drawn. */
const drawOutline = (doc: Doc, shape: OutlineShape): void => {
  doc.path(shape.path).lineWidth(shape.width).lineJoin("round");
  setDash(doc, shape.dash);
  if (shape.fill !== null) doc.fillOpacity(shape.fillOpacity);
  ink(doc, { fill: shape.fill, edge: shape.stroke });
};

const drawShape = (doc: Doc, shape: Exclude<PageShape, LetteringShape>): void => {
  switch (shape.kind) {
    case "path":
      return drawPath(doc, shape);
    case "area":
      return drawArea(doc, shape);
    case "rect":
      return drawRect(doc, shape);
    case "dot":
      doc.lineWidth(shape.edgeWidth ?? DOT_EDGE).circle(shape.x, shape.y, shape.radius);
      return ink(doc, shape);
    case "text":
      return drawText(doc, shape);
    case "status":
      return drawStatus(doc, shape);
    case "outline":
      return drawOutline(doc, shape);
    default:
      return missingCase(shape);
  }
};

/** Draws it at the origin, in its own lengths. */
export const drawShapes = (doc: Doc, { groups }: PagePicture): void => {
  for (const { clip, shapes } of groups) {
    if (clip !== null) doc.save().rect(clip.x, clip.y, clip.width, clip.height).clip();
    for (const shape of shapes) {
      if (shape.kind === "lettering") {
        doc.fillColor(colours[shape.ink]);
        letter(doc, shape, shape.y);
        continue;
      }
      doc.save();
      drawShape(doc, shape);
      doc.restore();
    }
    if (clip !== null) doc.restore();
  }
};
