/** A chart of the report as SVG; its inks are the page's own tokens, so that it is drawn for day, night and print. */
import { memo } from "react";
import type { Ink, Picture, Shape } from "../../../app/report/picture/picture.ts";

const inks: Readonly<Record<Ink, string>> = {
  text: "var(--ink)",
  quiet: "var(--ink-soft)",
  hairline: "var(--hairline)",
  ground: "var(--raised)",
  warning: "var(--status-short)",
  first: "var(--propellant-0)",
  second: "var(--propellant-1)",
  third: "var(--propellant-2)",
  fourth: "var(--propellant-3)",
  fifth: "var(--propellant-4)",
  sixth: "var(--propellant-5)",
};

const inkOf = (ink: Ink | null): string => (ink === null ? "none" : inks[ink]);

interface PictureViewProps {
  readonly picture: Picture;
  readonly label: string;
}

export const PictureView = memo(({ picture, label }: PictureViewProps) => (
  <svg className="leaf-picture" viewBox={`0 0 ${picture.width} ${picture.height}`} role="img" aria-label={label}>
    {picture.shapes.map((shape, index) => (
      // eslint-disable-next-line react/no-array-index-key -- a picture never changes its shapes, it is replaced whole
      <ShapeView key={index} shape={shape} />
    ))}
  </svg>
));
PictureView.displayName = "PictureView";

const ShapeView = ({ shape }: { shape: Shape }) =>
  shape.kind === "path" ? (
    <path
      d={shape.path}
      fill={inkOf(shape.fill)}
      fillOpacity={shape.fillOpacity}
      stroke={inkOf(shape.stroke)}
      strokeWidth={shape.width}
      strokeLinejoin="round"
      {...(shape.dash.length > 0 ? { strokeDasharray: shape.dash.join(" ") } : {})}
    />
  ) : (
    <text
      x={shape.x}
      y={shape.y}
      fontSize={shape.size}
      fill={inkOf(shape.ink)}
      textAnchor={shape.anchor}
      {...(shape.isBold ? { fontWeight: 700 } : {})}
    >
      {shape.text}
    </text>
  );
