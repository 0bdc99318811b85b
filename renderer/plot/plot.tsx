/** A picture as wide as its place, drawn on a canvas and drawn anew when size, theme or content change. */
import { type MouseEvent, useCallback, useEffect, useMemo, useRef, useState } from "react";
import { drawBase } from "../charts/draw.ts";
import type { Picture } from "../../app/picture/shape.ts";
import { ChartPlace } from "./chart-place.tsx";
import { useChartTheme } from "./use-chart-theme.ts";
import "./plot.css";

interface PlotProps {
  /** What it shows and of what, for when it is copied or saved. */
  readonly title: string;
  /** Units and what else the picture itself does not say; the same list each time. */
  readonly notes: readonly string[];
  /** A function where it hangs on the width. */
  readonly height: number | ((width: number) => number);
  /** What the picture shows, for those who do not see it; null: words beside it say so. */
  readonly label: string | null;
  readonly compose: (size: Size) => Picture;
  /** The picture for paper, where it is another than on screen. */
  readonly composePaper?: (width: number) => Picture;
  /** Where it was pressed, pixels; a table beside it does the same by keyboard. */
  readonly onPress?: (at: { readonly x: number; readonly y: number }, size: Size) => void;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Narrower than this, nothing can be read. */
const LEAST_WIDTH = 80;
/** What leaves the program is at least this wide, however narrow its place. */
const LEAST_PAPER_WIDTH = 640;

export const Plot = ({ title, notes, height: asked, label, compose, composePaper, onPress }: PlotProps) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const theme = useChartTheme();
  const heightOf = useCallback((wide: number) => (typeof asked === "number" ? asked : asked(wide)), [asked]);
  const height = heightOf(width);
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
  const source = useMemo(() => {
    const paperWidth = Math.max(width, LEAST_PAPER_WIDTH);
    return {
      title,
      notes,
      compose: () => composePaper?.(paperWidth) ?? compose({ width: paperWidth, height: heightOf(paperWidth) }),
    };
  }, [title, notes, width, heightOf, compose, composePaper]);
  const press = (event: MouseEvent): void => {
    const box = event.currentTarget.getBoundingClientRect();
    onPress?.({ x: event.clientX - box.left, y: event.clientY - box.top }, { width, height });
  };
  return (
    <ChartPlace source={source}>
      <div ref={place} className="plot">
        <canvas
          ref={canvas}
          className={onPress === undefined ? "plot-canvas" : "plot-canvas plot-pressed"}
          aria-hidden="true"
          {...(onPress === undefined ? {} : { onClick: press })}
        />
        {label !== null && <p className="unseen">{label}</p>}
      </div>
    </ChartPlace>
  );
};
