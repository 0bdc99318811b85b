/** A picture as SVG text; colours by class, so that a page can style it for its ground. */
import type { Picture, Shape } from "./picture.ts";

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text made safe inside HTML and XML. */
export const escapeMarkup = (text: string): string =>
  text.replace(/[&<>"']/g, (character) => escapes[character] ?? character);

/** `colours`: the value of every ink, for a file that stands alone. */
export const toSvg = (picture: Picture, title: string, colourOf: (ink: string) => string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${picture.width} ${picture.height}" role="img" aria-label="${escapeMarkup(title)}">` +
  `<title>${escapeMarkup(title)}</title>${picture.shapes.map((shape) => shapeText(shape, colourOf)).join("")}</svg>`;

const shapeText = (shape: Shape, colourOf: (ink: string) => string): string =>
  shape.kind === "path"
    ? `<path d="${shape.path}" fill="${shape.fill ? colourOf(shape.fill) : "none"}"` +
      (shape.fill && shape.fillOpacity < 1 ? ` fill-opacity="${shape.fillOpacity}"` : "") +
      (shape.stroke
        ? ` stroke="${colourOf(shape.stroke)}" stroke-width="${shape.width}" stroke-linejoin="round"`
        : "") +
      (shape.dash.length > 0 ? ` stroke-dasharray="${shape.dash.join(" ")}"` : "") +
      "/>"
    : `<text x="${shape.x}" y="${shape.y}" font-size="${shape.size}" fill="${colourOf(shape.ink)}" text-anchor="${shape.anchor}"` +
      `${shape.isBold ? ' font-weight="bold"' : ""}>${escapeMarkup(shape.text)}</text>`;
