/** Shapes as elements of SVG: what a file, a page of HTML and the window are written from. */
import { missingCase } from "../ground/missing-case.ts";
import { type Ink, statusInk } from "./ink.ts";
import type { LetteringShape, OutlineShape, PageShape } from "./kept-shape.ts";
import {
  type AreaShape,
  BASELINE,
  type Box,
  DOT_EDGE,
  type PathShape,
  type RectShape,
  SLASH,
  type StatusShape,
  TEXTURE_STEP,
  type TextShape,
} from "./shape.ts";

export interface SvgNode {
  readonly name: string;
  /** In the order in which they are written; the values are not escaped. */
  readonly attributes: Readonly<Record<string, string>>;
  /** Elements inside, or text, not escaped; null: it stands empty. */
  readonly content: readonly SvgNode[] | string | null;
}

/** Where the elements will stand. */
export interface SvgPlace {
  /** A colour, or a variable of the page's style. */
  readonly colours: Readonly<Record<Ink, string>>;
  /** Before the names of patterns and cuts, so that they are single in a page of several pictures; "" in a file. */
  readonly prefix: string;
}

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Two decimals at most: enough for screen and paper, and the same on every machine. */
const number = (value: number): string => String(Number(value.toFixed(2)));

/** Numbers are rounded, and what is undefined is left out. */
export const svgNode = (name: string, attributes: Attributes, content: SvgNode["content"] = null): SvgNode => ({
  name,
  attributes: Object.fromEntries(
    Object.entries(attributes).flatMap(([key, value]) =>
      value === undefined ? [] : [[key, typeof value === "number" ? number(value) : value]],
    ),
  ),
  content,
});

const pathOf = (points: ArrayLike<number>): string => {
  const steps: string[] = [];
  for (let i = 0; i + 1 < points.length; i += 2)
    steps.push(`${i === 0 ? "M" : "L"}${number(points[i] ?? 0)} ${number(points[i + 1] ?? 0)}`);
  return steps.join("");
};

const alphaOf = (alpha: number | undefined): number | undefined => (alpha === 1 ? undefined : alpha);

const dashOf = (dash: readonly number[] | undefined): string | undefined => dash?.join(" ");

const patternId = ({ texture, ink }: AreaShape, prefix: string): string => `${prefix}${texture}-${ink}`;

const areaNode = (shape: AreaShape, { colours, prefix }: SvgPlace): SvgNode =>
  svgNode("path", {
    d: `${pathOf(shape.points)}Z`,
    fill: shape.texture === "flat" ? colours[shape.ink] : `url(#${patternId(shape, prefix)})`,
    opacity: alphaOf(shape.alpha),
  });

const pathNode = (shape: PathShape, { colours }: SvgPlace): SvgNode =>
  svgNode("path", {
    d: pathOf(shape.points),
    fill: "none",
    stroke: colours[shape.ink],
    "stroke-width": shape.width,
    "stroke-dasharray": dashOf(shape.dash),
    "stroke-linejoin": "round",
    opacity: alphaOf(shape.alpha),
  });

const rectNode = (shape: RectShape, { colours }: SvgPlace): SvgNode =>
  svgNode("rect", {
    x: shape.x,
    y: shape.y,
    width: shape.width,
    height: shape.height,
    rx: shape.corner,
    fill: shape.fill === null ? "none" : colours[shape.fill],
    stroke: shape.edge === null ? undefined : colours[shape.edge],
    "stroke-width": shape.edge === null ? undefined : (shape.edgeWidth ?? 1),
    "stroke-dasharray": dashOf(shape.dash),
    opacity: alphaOf(shape.alpha),
  });

const textNode = (shape: TextShape, { colours }: SvgPlace): SvgNode =>
  svgNode(
    "text",
    {
      x: shape.x,
      y: shape.y + shape.size * BASELINE,
      fill: colours[shape.ink],
      "font-size": shape.size,
      "font-weight": shape.isBold === true ? 600 : undefined,
      "text-anchor": shape.anchor === "start" ? undefined : shape.anchor,
      opacity: alphaOf(shape.alpha),
      ...(shape.halo === undefined ? {} : { stroke: colours[shape.halo], "stroke-width": 3, "paint-order": "stroke" }),
    },
    shape.text,
  );

const statusNode = (shape: StatusShape, { colours }: SvgPlace): SvgNode => {
  const { x, y, radius, status } = shape;
  const colour = colours[statusInk[status]];
  const stroke = { stroke: colour, "stroke-width": 1.5 };
  const fill = status === "supplied" ? colour : "none";
  const circle = svgNode("circle", { cx: x, cy: y, r: radius, fill, ...stroke });
  const half = `M${number(x)} ${number(y - radius)}A${number(radius)} ${number(radius)} 0 0 0 ${number(x)} ${number(y + radius)}Z`;
  const inner =
    status === "thin"
      ? [svgNode("path", { d: half, fill: colour })]
      : status === "short"
        ? [
            svgNode("path", {
              d: pathOf([x - radius * SLASH, y + radius * SLASH, x + radius * SLASH, y - radius * SLASH]),
              ...stroke,
            }),
          ]
        : [];
  return svgNode("g", { opacity: alphaOf(shape.alpha) }, [circle, ...inner]);
};

/** To the letter as issues of its day were written. */
const outlineNode = (shape: OutlineShape, { colours }: SvgPlace): SvgNode => {
  const { fill, stroke } = shape;
  return svgNode("path", {
    d: shape.path,
    fill: fill === null ? "none" : colours[fill],
    "fill-opacity": fill !== null && shape.fillOpacity < 1 ? String(shape.fillOpacity) : undefined,
    ...(stroke === null
      ? {}
      : { stroke: colours[stroke], "stroke-width": String(shape.width), "stroke-linejoin": "round" }),
    "stroke-dasharray": shape.dash.length > 0 ? shape.dash.join(" ") : undefined,
  });
};

/** The same of text. */
const letteringNode = (shape: LetteringShape, { colours }: SvgPlace): SvgNode =>
  svgNode(
    "text",
    {
      x: String(shape.x),
      y: String(shape.y),
      "font-size": String(shape.size),
      fill: colours[shape.ink],
      "text-anchor": shape.anchor,
      "font-weight": shape.isBold ? "bold" : undefined,
    },
    shape.text,
  );

/** One shape. */
export const shapeNode = (shape: PageShape, place: SvgPlace): SvgNode => {
  switch (shape.kind) {
    case "path":
      return pathNode(shape, place);
    case "area":
      return areaNode(shape, place);
    case "rect":
      return rectNode(shape, place);
    case "text":
      return textNode(shape, place);
    case "dot":
      return svgNode("circle", {
        cx: shape.x,
        cy: shape.y,
        r: shape.radius,
        fill: place.colours[shape.fill],
        stroke: place.colours[shape.edge],
        "stroke-width": shape.edgeWidth ?? DOT_EDGE,
      });
    case "status":
      return statusNode(shape, place);
    case "outline":
      return outlineNode(shape, place);
    case "lettering":
      return letteringNode(shape, place);
    default:
      return missingCase(shape);
  }
};

const isTextured = (shape: PageShape): shape is AreaShape => shape.kind === "area" && shape.texture !== "flat";

/** The patterns that ruled and hatched areas are filled with, each once. */
export const patternNodes = (shapes: readonly PageShape[], { colours, prefix }: SvgPlace): readonly SvgNode[] => {
  const found = new Map<string, SvgNode>();
  for (const shape of shapes.filter(isTextured)) {
    const { texture, ink } = shape;
    if (texture === "flat") continue;
    const step = TEXTURE_STEP[texture];
    const d = texture === "ruled" ? `M0.5 0V${step}` : `M0 ${step}L${step} 0`;
    const ruling = svgNode("path", { d, stroke: colours[ink], fill: "none" });
    const id = patternId(shape, prefix);
    found.set(id, svgNode("pattern", { id, width: step, height: step, patternUnits: "userSpaceOnUse" }, [ruling]));
  }
  return [...found.values()];
};

/** What cuts a group off. */
export const clipNode = (clip: Box, id: string): SvgNode =>
  svgNode("clipPath", { id }, [svgNode("rect", { x: clip.x, y: clip.y, width: clip.width, height: clip.height })]);
