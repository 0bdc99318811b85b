/** Electron's security checklist: words that must not stand in the source, the pin of Electron, and the list itself. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const read = (path: string): string => readFileSync(join(root, path), "utf8");
const filesUnder = (folder: string, ending: RegExp): readonly string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((path) => ending.test(path))
    .map((path) => `${folder}/${path}`);
/** Source without its comments' lines, so that a comment may name what it forbids. */
const codeOf = (path: string): string =>
  read(path)
    .split("\n")
    .filter((line) => !/^\s*(\/\/|\*|\/\*)/.test(line))
    .join("\n");

const source = [...filesUnder("main", /\.ts$/), ...filesUnder("renderer", /\.(tsx?|html)$/)];
const where = (pattern: RegExp): readonly string[] => source.filter((path) => pattern.test(codeOf(path)));

describe("the source", () => {
  it("is there to be looked at", () => expect(source.length).toBeGreaterThan(20));

  it.each([
    ["item 1: loads nothing by http", /(loadURL|src=|href=|import\()\s*\(?["'`]https?:/],
    ["item 6: never sets webSecurity", /\bwebSecurity\b/],
    ["item 8: never sets allowRunningInsecureContent", /allowRunningInsecureContent/],
    ["item 9: never sets experimentalFeatures", /experimentalFeatures/],
    ["item 10: never sets enableBlinkFeatures", /[eE]nableBlinkFeatures|enable-blink-features/],
    ["item 11: has no embedded view and no popups of one", /<webview|allowpopups/],
    ["item 15: hands nothing to the system to open", /shell\s*\.\s*open|openExternal/],
    ["item 18: loads no file by file://", /loadFile|["'`]file:\/\//],
    ["item 20: gives the page no Electron object", /exposeInMainWorld\([^)]*ipcRenderer/],
  ])("%s", (_item, pattern) => expect(where(pattern)).toEqual([]));

  it("item 20: only the preload script and the main process know Electron", () =>
    expect(where(/from ["']electron["']/).filter((path) => !path.startsWith("main/"))).toEqual([]));
});

describe("Electron itself", () => {
  const pinned = (JSON.parse(read("package.json")) as { devDependencies: Record<string, string> }).devDependencies[
    "electron"
  ];

  it("item 16: is pinned to one version, the one that is installed", () => {
    expect(pinned).toMatch(/^\d+\.\d+\.\d+$/);
    expect((JSON.parse(read("node_modules/electron/package.json")) as { version: string }).version).toBe(pinned);
  });

  it("item 16: how to bring it up to date is written down", () =>
    expect(read("DEVELOPERS.md")).toMatch(/Bring Electron up to date/));
});

it("every one of the twenty items has a test", () => {
  const tests = [...filesUnder("test/main/security", /\.test\.ts$/), ...filesUnder("test/e2e/desktop", /\.spec\.ts$/)];
  const named = new Set(
    tests.flatMap((path) => [...read(path).matchAll(/item (\d+)\b/g)].map((match) => Number(match[1]))),
  );
  expect([...named].toSorted((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, index) => index + 1));
});
