/** What the tests ask of a picture: its shapes, its words, and the corners that they reach. */
import type { PagePicture, PageShape } from "../../../app/picture/kept-shape.ts";
import type { TextShape } from "../../../app/picture/shape.ts";

export const shapesOf = (picture: PagePicture | undefined): readonly PageShape[] =>
  (picture?.groups ?? []).flatMap(({ shapes }) => shapes);

export const textsOf = (picture: PagePicture | undefined): readonly TextShape[] =>
  shapesOf(picture).flatMap((shape) => (shape.kind === "text" ? [shape] : []));

/** Words alone. */
export const wordsOf = (picture: PagePicture | undefined): readonly string[] =>
  textsOf(picture).map(({ text }) => text);

/** Corners of a shape; of words the point that they stand at. */
export const cornersOf = (shape: PageShape): readonly (readonly [number, number])[] => {
  if (shape.kind === "outline") throw new Error("No picture of today has an outline.");
  if (shape.kind === "path" || shape.kind === "area") {
    const all = Array.from(shape.points);
    return all.flatMap((x, n) => (n % 2 === 0 ? [[x, all[n + 1] ?? Number.NaN] as const] : []));
  }
  if (shape.kind === "rect")
    return [
      [shape.x, shape.y],
      [shape.x + shape.width, shape.y + shape.height],
    ];
  return [[shape.x, shape.y]];
};

/** Corners that lie outside of the picture. */
export const outsideOf = (picture: PagePicture): readonly (readonly [number, number])[] =>
  shapesOf(picture)
    .flatMap(cornersOf)
    .filter(([x, y]) => !(x >= 0 && x <= picture.width && y >= 0 && y <= picture.height));
