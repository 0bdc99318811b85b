/** The notices name every package that is built in, with the text of its licence. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { collectNotices } from "../../../main/notices/collect-notices.ts";
import { isAllowedLicence } from "../../../main/notices/production-packages.ts";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const notices = collectNotices(root);

it("names what package.json depends on, at the version that is there", () => {
  const { dependencies } = JSON.parse(readFileSync(`${root}/package.json`, "utf8")) as {
    dependencies: Record<string, string>;
  };
  const named = new Map(notices.map(({ name, version }) => [name, version]));
  for (const [name, version] of Object.entries(dependencies)) expect([name, named.get(name)]).toEqual([name, version]);
});

it("names nothing that only builds or tests the program", () => {
  const named = new Set(notices.map(({ name }) => name));
  for (const name of ["vitest", "typescript", "electron-builder", "fast-check"]) expect(named.has(name)).toBe(false);
});

it("brings the text of every licence that its package brings; five bring none", () => {
  const without = notices.filter(({ text }) => text.length < 200);
  expect(without.map(({ name }) => name)).toEqual(["brotli", "client-only", "dfa", "fontkit", "worker-f"]);
  expect(notices.find(({ name }) => name === "react")?.text).toMatch(/MIT License[\s\S]*Permission is hereby granted/);
});

it.each([
  ["MIT", true],
  ["(MIT OR GPL-3.0-only)", true],
  ["Apache-2.0 AND BSL-1.0", true],
  ["MIT AND GPL-3.0-only", false],
  ["GPL-3.0-only", false],
  ["SEE LICENSE IN LICENSE", false],
  ["", false],
])("%j may be built in: %j", (expression, isAllowed) => expect(isAllowedLicence(expression)).toBe(isAllowed));
