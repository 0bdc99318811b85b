/** A picture as wide as its place, drawn on a canvas and drawn anew when size, theme or content change. */
import { useEffect, useRef, useState } from "react";
import { drawBase } from "../charts/draw.ts";
import type { Picture } from "../charts/shape.ts";
import { useChartTheme } from "./use-chart-theme.ts";
import "./plot.css";

interface PlotProps {
  readonly height: number;
  /** What the picture shows, for those who do not see it; null: words beside it say so. */
  readonly label: string | null;
  readonly compose: (size: { readonly width: number; readonly height: number }) => Picture;
}

/** Narrower than this, nothing can be read. */
const LEAST_WIDTH = 80;

export const Plot = ({ height, label, compose }: PlotProps) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const theme = useChartTheme();
  useEffect(() => {
    const node = place.current;
    if (node === null) return undefined;
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(node);
    return () => observer.disconnect();
  }, []);
  useEffect(() => {
    const node = canvas.current;
    const context = node?.getContext("2d");
    if (!node || !context || width < LEAST_WIDTH) return;
    const ratio = window.devicePixelRatio;
    node.width = Math.round(width * ratio);
    node.height = Math.round(height * ratio);
    node.style.width = `${String(width)}px`;
    node.style.height = `${String(height)}px`;
    drawBase(context, compose({ width, height }), theme, ratio);
  }, [width, height, compose, theme]);
  return (
    <div ref={place} className="plot">
      <canvas ref={canvas} className="plot-canvas" aria-hidden="true" />
      {label !== null && <p className="unseen">{label}</p>}
    </div>
  );
};
