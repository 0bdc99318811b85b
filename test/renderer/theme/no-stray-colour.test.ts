/** Colours are written in the tokens alone. */
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../../../renderer", import.meta.url));
const sources = readdirSync(root, { recursive: true, encoding: "utf8" }).filter(
  (path) => /\.(css|tsx?)$/.test(path) && !path.endsWith("tokens.css"),
);

it("looks at the page's sources", () => expect(sources.length).toBeGreaterThan(50));

it.each(sources)("%s names no colour", (path) => {
  const text = readFileSync(`${root}/${path}`, "utf8").replaceAll(/\/\*[\s\S]*?\*\//g, "");
  expect(text.match(/#[0-9a-f]{3,8}\b(?=[;"'\s,)])|\b(?:rgba?|hsla?|oklch|lab|lch)\(/gi)).toBeNull();
});
