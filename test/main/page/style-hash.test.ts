/** The one style sheet that the policy lets in by its hash is the one that the installed widget library makes. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { CONTENT_POLICY, PRESSABLE_STYLE_HASH } from "../../../main/page/content-policy.ts";

const library = fileURLToPath(
  new URL("../../../node_modules/react-aria/dist/private/interactions/usePress.mjs", import.meta.url),
);

it("is the hash of the library's text", () => {
  const source = readFileSync(library, "utf8");
  const attribute = /PRESSABLE_ATTRIBUTE = '([^']+)'/.exec(source)?.[1];
  const template = /style\.textContent = `([^`]*)`\.trim\(\)/.exec(source)?.[1];
  expect(attribute).toBeTruthy();
  const text = template!.replace(/\$\{[^}]*PRESSABLE_ATTRIBUTE\}/, attribute!).trim();
  expect(text).not.toMatch(/\$\{/);
  expect(PRESSABLE_STYLE_HASH).toBe(`sha256-${createHash("sha256").update(text).digest("base64")}`);
  expect(CONTENT_POLICY).toContain(`style-src 'self' '${PRESSABLE_STYLE_HASH}';`);
});
