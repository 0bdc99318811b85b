/** Writes a picture as SVG: as a file that stands alone, as a part of a page of HTML, and as elements for the window. */
import { escapeMarkup } from "../format/markup.ts";
import type { Ink, Theme } from "./ink.ts";
import type { PagePicture } from "./kept-shape.ts";
import { clipNode, patternNodes, shapeNode, type SvgNode, svgNode, type SvgPlace } from "./svg-node.ts";

export type { SvgNode } from "./svg-node.ts";

const written = ({ name, attributes, content }: SvgNode): string => {
  const head = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escapeMarkup(value)}"`)
    .join("");
  if (content === null) return `<${name}${head}/>`;
  return `<${name}${head}>${typeof content === "string" ? escapeMarkup(content) : content.map(written).join("")}</${name}>`;
};

/** Text of an element with one piece of content a line. */
const writtenInLines = (node: SvgNode, lines: readonly string[]): string =>
  written({ ...node, content: "" }).replace("><", `>\n${lines.join("\n")}\n<`);

const clipId = (index: number, prefix: string): string => `${prefix}clip-${index}`;

const definitions = ({ groups }: PagePicture, place: SvgPlace): readonly SvgNode[] => [
  ...patternNodes(
    groups.flatMap(({ shapes }) => shapes),
    place,
  ),
  ...groups.flatMap(({ clip }, index) => (clip === null ? [] : [clipNode(clip, clipId(index, place.prefix))])),
];

/** A file of its own, one shape a line, on the theme's sheet; `title` names it for those who hear it. */
export const toSvg = (picture: PagePicture, theme: Theme, title?: string): string => {
  const { width, height, groups } = picture;
  const place: SvgPlace = { colours: theme.colours, prefix: "" };
  const body = groups.map(({ clip, shapes }, index) =>
    writtenInLines(
      svgNode("g", { "clip-path": clip === null ? undefined : `url(#${clipId(index, "")})` }),
      shapes.map((shape) => written(shapeNode(shape, place))),
    ),
  );
  const root = svgNode("svg", {
    xmlns: "http://www.w3.org/2000/svg",
    width,
    height,
    viewBox: viewBoxOf(picture),
    role: title === undefined ? undefined : "img",
    "font-family": theme.font,
  });
  return `${writtenInLines(root, [
    ...(title === undefined ? [] : [written(svgNode("title", {}, title))]),
    writtenInLines(svgNode("defs", {}), definitions(picture, place).map(written)),
    written(svgNode("rect", { x: 0, y: 0, width, height, fill: theme.colours.sheet })),
    ...body,
  ])}\n`;
};

const viewBoxOf = ({ width, height }: PagePicture): string => `0 0 ${round(width)} ${round(height)}`;

const round = (value: number): number => Number(value.toFixed(2));

/** What stands inside the root where a page holds the picture: no more elements than it takes. */
export const svgNodes = (picture: PagePicture, place: SvgPlace): readonly SvgNode[] => {
  const defined = definitions(picture, place);
  return [
    ...(defined.length === 0 ? [] : [svgNode("defs", {}, defined)]),
    ...picture.groups.flatMap(({ clip, shapes }, index): readonly SvgNode[] => {
      const drawn = shapes.map((shape) => shapeNode(shape, place));
      return clip === null ? drawn : [svgNode("g", { "clip-path": `url(#${clipId(index, place.prefix)})` }, drawn)];
    }),
  ];
};

/**
 * A part of a page: as wide as its place there, in the page's own type. `colours`: values, or variables of the page's style,
 * so that it is drawn for day, night and print.
 */
export const toInlineSvg = (
  picture: PagePicture,
  title: string,
  colours: Readonly<Record<Ink, string>>,
  prefix: string,
): string =>
  written(
    svgNode(
      "svg",
      {
        xmlns: "http://www.w3.org/2000/svg",
        viewBox: `0 0 ${picture.width} ${picture.height}`,
        role: "img",
        "aria-label": title,
      },
      [svgNode("title", {}, title), ...svgNodes(picture, { colours, prefix })],
    ),
  );
