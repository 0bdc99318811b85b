/** A picture as PNG, at twice its size so that it stays sharp on paper. */
import type { Theme } from "../../app/picture/ink.ts";
import { drawGroups } from "./draw.ts";
import type { Measure, Picture } from "../../app/picture/shape.ts";

const RATIO = 2;

/** A canvas that is not shown, with its context. Throws where the page cannot draw. */
const hiddenCanvas = (width: number, height: number) => {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("This window cannot draw. Restart Coldstock.");
  return { canvas, context };
};

/** Measures as the picture will be drawn. */
export const measureIn = (theme: Theme): Measure => {
  const { context } = hiddenCanvas(1, 1);
  return (text, size, isBold = false) => {
    context.font = `${isBold ? 600 : 400} ${size}px ${theme.font}`;
    return context.measureText(text).width;
  };
};

const withoutAddress = (dataUrl: string): string => dataUrl.slice(dataUrl.indexOf(",") + 1);

/** The bytes in base64, on the theme's sheet. Throws where the picture is too large for a canvas. */
export const pngOf = (picture: Picture, theme: Theme): string => {
  const { canvas, context } = hiddenCanvas(Math.ceil(picture.width * RATIO), Math.ceil(picture.height * RATIO));
  context.setTransform(RATIO, 0, 0, RATIO, 0, 0);
  context.fillStyle = theme.colours.sheet;
  context.fillRect(0, 0, picture.width, picture.height);
  drawGroups(context, picture.groups, theme);
  const base64 = withoutAddress(canvas.toDataURL("image/png"));
  if (base64 === "") throw new Error("The chart is too large for a PNG. Show less of it, or save it as SVG.");
  return base64;
};
