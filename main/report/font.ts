/** Where the typeface of printed reports lies: beside the built program, or among the packages when run from source. */
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import type { Doc } from "./pdf-page.ts";

const PACKAGE = "@fontsource/atkinson-hyperlegible-next";

/** The bytes of one cut. Throws when the installation lacks it. */
export const fontBytes = (weight: 400 | 700): Buffer => {
  const name = `atkinson-hyperlegible-next-latin-${weight}-normal.woff`;
  const beside = fileURLToPath(new URL(`fonts/${name}`, import.meta.url));
  return readFileSync(existsSync(beside) ? beside : createRequire(import.meta.url).resolve(`${PACKAGE}/files/${name}`));
};

const THIN = 0x2009;
const NARROW_WITHOUT_BREAK = 0x202f;

/** What the drawing library keeps of the typeface in use; its declared types do not know it. */
interface WithFace {
  readonly _font?: { readonly font?: { glyphForCodePoint: (codePoint: number) => unknown } };
}

/**
 * Registers both cuts. The typeface has the thin space, at which a line may end (UAX #14, class BA), and not the narrow one
 * at which it may not (class GL): that one is drawn as the thin space, so that no figure breaks at its thousands or its unit.
 * Throws when the installation lacks a cut.
 */
export const registerFonts = (doc: Doc): void => {
  for (const [name, weight] of [
    ["regular", 400],
    ["bold", 700],
  ] as const) {
    doc.registerFont(name, fontBytes(weight));
    // oxlint-disable-next-line no-underscore-dangle -- the library has no other way to its typeface
    const face = (doc.font(name) as WithFace)._font?.font;
    if (face === undefined) throw new Error("The drawing library does not show its typeface.");
    const glyphOf = face.glyphForCodePoint.bind(face);
    face.glyphForCodePoint = (codePoint) => glyphOf(codePoint === NARROW_WITHOUT_BREAK ? THIN : codePoint);
  }
};
