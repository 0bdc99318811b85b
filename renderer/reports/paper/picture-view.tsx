/** A chart of the report as SVG; its inks are the page's own tokens, so that it is drawn for day, night and print. */
import { createElement, memo, type ReactNode, useId, useMemo } from "react";
import { type Ink, inks } from "../../../app/picture/ink.ts";
import type { PagePicture } from "../../../app/picture/kept-shape.ts";
import { type SvgNode, svgNodes } from "../../../app/picture/svg.ts";

/** A leaf is a sheet that lies upon the page: what stands on it has the leaf's own ground. */
const tokens = Object.fromEntries(inks.map((ink) => [ink, `var(--${ink === "sheet" ? "raised" : ink})`])) as Record<
  Ink,
  string
>;

/** "stroke-width" is `strokeWidth` to React. */
const property = (name: string): string => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());

const element = ({ name, attributes, content }: SvgNode, key: number): ReactNode =>
  createElement(
    name,
    { key, ...Object.fromEntries(Object.entries(attributes).map(([each, value]) => [property(each), value])) },
    typeof content === "string" ? content : content?.map(element),
  );

interface PictureViewProps {
  readonly picture: PagePicture;
  readonly label: string;
}

export const PictureView = memo(({ picture, label }: PictureViewProps) => {
  const id = useId();
  const nodes = useMemo(() => svgNodes(picture, { colours: tokens, prefix: `${id}-` }), [picture, id]);
  return (
    <svg className="leaf-picture" viewBox={`0 0 ${picture.width} ${picture.height}`} role="img" aria-label={label}>
      {nodes.map(element)}
    </svg>
  );
});
PictureView.displayName = "PictureView";
