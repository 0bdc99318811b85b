/**
 * The three canvases of the timeline: base, drawn when the plan or the stretch changes; head and active, in every frame of
 * a drag, from where on they differ from what they show.
 */
import type { Theme } from "../../../app/picture/ink.ts";
import { readChartTheme } from "../../charts/chart-theme.ts";
import { changedFrom } from "../../charts/damage.ts";
import { drawBase, drawFrom } from "../../charts/draw.ts";
import type { Group, Measure } from "../../../app/picture/shape.ts";

export interface Painter {
  /** Device pixels for a size in CSS pixels; clears. */
  readonly resize: (width: number, headHeight: number, bodyHeight: number) => void;
  /** Reads the colours anew. */
  readonly retheme: () => void;
  readonly head: (groups: readonly Group[]) => void;
  readonly base: (groups: readonly Group[]) => void;
  readonly active: (groups: readonly Group[]) => void;
  readonly measure: Measure;
}

interface Canvases {
  readonly head: HTMLCanvasElement;
  readonly base: HTMLCanvasElement;
  readonly active: HTMLCanvasElement;
}

const contextOf = (canvas: HTMLCanvasElement): CanvasRenderingContext2D => {
  const context = canvas.getContext("2d");
  if (context === null)
    throw new Error("This window cannot draw. Restart Coldstock; if it stays so, update the graphics driver.");
  return context;
};

const MAX_MEASURED = 4000;

/** Widths of texts, kept: the same few names come back in every frame. */
const measureWith = (context: CanvasRenderingContext2D, font: () => string): Measure => {
  const known = new Map<string, number>();
  return (text, size, isBold = false) => {
    const key = `${size}${isBold ? "b" : ""}${text}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    if (known.size >= MAX_MEASURED) known.clear();
    context.font = `${isBold ? 600 : 400} ${size}px ${font()}`;
    const { width } = context.measureText(text);
    known.set(key, width);
    return width;
  };
};

/** A canvas that knows what it shows, so that of the next picture only what follows the first difference is drawn. */
const layerOf = (
  paint: (groups: readonly Group[], fromX: number) => void,
  measure: Measure,
): { readonly show: (groups: readonly Group[]) => void; readonly forget: () => void } => {
  /** null: it is not known to show it as it would be drawn now. */
  let shown: readonly Group[] | null = null;
  return {
    show: (groups) => {
      paint(groups, shown === null ? -Infinity : changedFrom(shown, groups, measure));
      shown = groups;
    },
    forget: () => {
      shown = null;
    },
  };
};

export const createPainter = (canvases: Canvases, within: HTMLElement): Painter => {
  const contexts = {
    head: contextOf(canvases.head),
    base: contextOf(canvases.base),
    active: contextOf(canvases.active),
  };
  let theme: Theme = readChartTheme(within);
  let size = { width: 0, head: 0, body: 0 };
  let ratio = 1;
  const fit = (canvas: HTMLCanvasElement, width: number, height: number): void => {
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(height * ratio);
    canvas.style.width = `${width}px`;
    canvas.style.height = `${height}px`;
  };
  const draw = (context: CanvasRenderingContext2D, height: number, groups: readonly Group[]): void =>
    drawBase(context, { width: size.width, height, groups }, theme, ratio);
  const measure = measureWith(contexts.active, () => theme.font);
  const partly =
    (context: CanvasRenderingContext2D, height: () => number) =>
    (groups: readonly Group[], fromX: number): void => {
      if (fromX === -Infinity) draw(context, height(), groups);
      else drawFrom(context, { width: size.width, height: height(), groups }, theme, ratio, fromX);
    };
  const head = layerOf(
    partly(contexts.head, () => size.head),
    measure,
  );
  const active = layerOf(
    partly(contexts.active, () => size.body),
    measure,
  );
  return {
    resize: (width, headHeight, body) => {
      if (size.width === width && size.head === headHeight && size.body === body && ratio === devicePixelRatio) return;
      ratio = devicePixelRatio;
      size = { width, head: headHeight, body };
      fit(canvases.head, width, headHeight);
      fit(canvases.base, width, body);
      fit(canvases.active, width, body);
      head.forget();
      active.forget();
    },
    retheme: () => {
      theme = readChartTheme(within);
      head.forget();
      active.forget();
    },
    head: head.show,
    base: (groups) => draw(contexts.base, size.body, groups),
    active: active.show,
    measure,
  };
};
