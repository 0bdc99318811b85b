/** Reads the colour tokens from the style sheet, so that the tests check what the page shows. */
import { readFileSync } from "node:fs";
import { type Oklch, oklch } from "culori";

const sheet = readFileSync(new URL("../../../renderer/theme/tokens.css", import.meta.url), "utf8");

export const themes = ["light", "dark"] as const;
export type Theme = (typeof themes)[number];

const colour = (text: string): Oklch => {
  const parsed = oklch(text.trim());
  if (parsed === undefined) throw new Error(`"${text}" in tokens.css is not a colour.`);
  return parsed;
};

const pairs = [...sheet.matchAll(/--([a-z0-9-]+):\s*light-dark\((oklch\([^)]*\)),\s*(oklch\([^)]*\))\)/g)];

/** Every colour token of a theme, by its name without dashes. */
export const tokens = (theme: Theme): ReadonlyMap<string, Oklch> =>
  new Map(pairs.map(([, name, light, dark]) => [name!, colour(theme === "light" ? light! : dark!)]));

/** One colour; throws if the token is not there. */
export const token = (theme: Theme, name: string): Oklch => {
  const found = tokens(theme).get(name);
  if (found === undefined) throw new Error(`There is no token --${name}.`);
  return found;
};
