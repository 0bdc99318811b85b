/** Where the typeface of printed reports lies: beside the built program, or among the packages when run from source. */
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";

const PACKAGE = "@fontsource/atkinson-hyperlegible-next";

/** The bytes of one cut. Throws when the installation lacks it. */
export const fontBytes = (weight: 400 | 700): Buffer => {
  const name = `atkinson-hyperlegible-next-latin-${weight}-normal.woff`;
  const beside = fileURLToPath(new URL(`fonts/${name}`, import.meta.url));
  return readFileSync(existsSync(beside) ? beside : createRequire(import.meta.url).resolve(`${PACKAGE}/files/${name}`));
};
