/** Writes a picture as SVG: for exports, and for the golden pictures of the tests. Numbers have two decimals at most. */
import { missingCase } from "../ground/missing-case.ts";
import { type Theme, statusInk } from "./ink.ts";
import {
  type AreaShape,
  BASELINE,
  type Box,
  type Group,
  type Picture,
  type Shape,
  SLASH,
  type StatusShape,
  TEXTURE_STEP,
} from "./shape.ts";

const number = (value: number): string => String(Number(value.toFixed(2)));

/** What XML 1.0 (section 2.2, Char) does not allow in a document, not even escaped. */
// eslint-disable-next-line no-control-regex -- these are what is taken out
const forbidden = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu;

const escape = (text: string): string =>
  text
    .replaceAll(forbidden, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");

type Attributes = Readonly<Record<string, string | number | undefined>>;

const tag = (name: string, attributes: Attributes, content?: string): string => {
  const written = Object.entries(attributes)
    .filter((entry) => entry[1] !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? number(value) : escape(value ?? "")}"`)
    .join("");
  return content === undefined ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
};

const pathOf = (points: ArrayLike<number>): string => {
  const steps: string[] = [];
  for (let i = 0; i + 1 < points.length; i += 2)
    steps.push(`${i === 0 ? "M" : "L"}${number(points[i] ?? 0)} ${number(points[i + 1] ?? 0)}`);
  return steps.join("");
};

const alphaOf = (alpha: number | undefined): number | undefined => (alpha === 1 ? undefined : alpha);

const dashOf = (dash: readonly number[] | undefined): string | undefined => dash?.join(" ");

const areaFill = (shape: AreaShape, theme: Theme): string =>
  shape.texture === "flat" ? theme.colours[shape.ink] : `url(#${shape.texture}-${shape.ink})`;

const statusText = (shape: StatusShape, theme: Theme): string => {
  const { x, y, radius, status } = shape;
  const colour = theme.colours[statusInk[status]];
  const stroke = { stroke: colour, "stroke-width": 1.5 };
  const fill = status === "supplied" ? colour : "none";
  const circle = tag("circle", { cx: x, cy: y, r: radius, fill, ...stroke });
  const half = `M${number(x)} ${number(y - radius)}A${number(radius)} ${number(radius)} 0 0 0 ${number(x)} ${number(y + radius)}Z`;
  const inner =
    status === "thin"
      ? tag("path", { d: half, fill: colour })
      : status === "short"
        ? tag("path", {
            d: pathOf([x - radius * SLASH, y + radius * SLASH, x + radius * SLASH, y - radius * SLASH]),
            ...stroke,
          })
        : "";
  return tag("g", { opacity: alphaOf(shape.alpha) }, circle + inner);
};

const shapeText = (shape: Shape, theme: Theme): string => {
  const { colours } = theme;
  switch (shape.kind) {
    case "path":
      return tag("path", {
        d: pathOf(shape.points),
        fill: "none",
        stroke: colours[shape.ink],
        "stroke-width": shape.width,
        "stroke-dasharray": dashOf(shape.dash),
        "stroke-linejoin": "round",
        opacity: alphaOf(shape.alpha),
      });
    case "area":
      return tag("path", {
        d: `${pathOf(shape.points)}Z`,
        fill: areaFill(shape, theme),
        opacity: alphaOf(shape.alpha),
      });
    case "rect":
      return tag("rect", {
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
    case "text":
      return tag(
        "text",
        {
          x: shape.x,
          y: shape.y + shape.size * BASELINE,
          fill: colours[shape.ink],
          "font-size": shape.size,
          "font-weight": shape.isBold === true ? 600 : undefined,
          "text-anchor": shape.anchor === "start" ? undefined : shape.anchor,
          opacity: alphaOf(shape.alpha),
          ...(shape.halo === undefined
            ? {}
            : { stroke: colours[shape.halo], "stroke-width": 3, "paint-order": "stroke" }),
        },
        escape(shape.text),
      );
    case "dot":
      return tag("circle", {
        cx: shape.x,
        cy: shape.y,
        r: shape.radius,
        fill: colours[shape.fill],
        stroke: colours[shape.edge],
        "stroke-width": 1.25,
      });
    case "status":
      return statusText(shape, theme);
    default:
      return missingCase(shape);
  }
};

const isTextured = (shape: Shape): shape is AreaShape => shape.kind === "area" && shape.texture !== "flat";

const patterns = (groups: readonly Group[], theme: Theme): readonly string[] => {
  const found = new Map<string, string>();
  for (const shape of groups.flatMap((group) => group.shapes).filter(isTextured)) {
    const { texture, ink } = shape;
    if (texture === "flat") continue;
    const step = TEXTURE_STEP[texture];
    const d = texture === "ruled" ? `M0.5 0V${step}` : `M0 ${step}L${step} 0`;
    const ruling = tag("path", { d, stroke: theme.colours[ink], fill: "none" });
    const id = `${texture}-${ink}`;
    found.set(id, tag("pattern", { id, width: step, height: step, patternUnits: "userSpaceOnUse" }, ruling));
  }
  return [...found.values()];
};

const clipText = (clip: Box, index: number): string =>
  tag(
    "clipPath",
    { id: `clip-${index}` },
    tag("rect", { x: clip.x, y: clip.y, width: clip.width, height: clip.height }),
  );

/** The whole picture as one SVG document, one shape a line; `title` names it for those who hear it. */
export const toSvg = (picture: Picture, theme: Theme, title?: string): string => {
  const { width, height, groups } = picture;
  const clips = groups.map((group, index) => (group.clip === null ? "" : clipText(group.clip, index)));
  const definitions = [...patterns(groups, theme), ...clips].filter((text) => text !== "");
  const body = groups.map((group, index) =>
    tag(
      "g",
      { "clip-path": group.clip === null ? undefined : `url(#clip-${index})` },
      `\n${group.shapes.map((shape) => shapeText(shape, theme)).join("\n")}\n`,
    ),
  );
  const size = { width, height, viewBox: `0 0 ${number(width)} ${number(height)}` };
  const ground = tag("rect", { x: 0, y: 0, width, height, fill: theme.colours.sheet });
  const name = title === undefined ? "" : `\n${tag("title", {}, escape(title))}`;
  const role = title === undefined ? undefined : "img";
  return `${tag(
    "svg",
    { xmlns: "http://www.w3.org/2000/svg", ...size, role, "font-family": theme.font },
    `${name}\n${tag("defs", {}, `\n${definitions.join("\n")}\n`)}\n${ground}\n${body.join("\n")}\n`,
  )}\n`;
};
