/** Every command line that README prints works as printed, one after the other, in an empty folder. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { run } from "./terminal.ts";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const BEGINNING = "npm run -s cli -- ";
const lines = readFileSync(join(root, "README.md"), "utf8")
  .split("\n")
  .filter((line) => line.startsWith("npm run") && line.includes(" cli "))
  .map((line) => line.replace(/\s+#.*$/, ""));

let folder = "";
const before = process.cwd();
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-readme-"));
  process.chdir(folder);
});
afterAll(() => {
  process.chdir(before);
  rmSync(folder, { recursive: true });
});

it("prints a good number of them, all alike", () => {
  expect(lines.length).toBeGreaterThan(12);
  expect(lines.filter((line) => !line.startsWith(BEGINNING))).toEqual([]);
});

it.each(lines)("%s", async (line) => {
  const words = line.slice(BEGINNING.length).split(/\s+/);
  const { status, out, err } = await run(...words);
  // 1 is an answer too: a sortie of the demonstration is short.
  expect({ status, err }).toMatchObject({ status: words[0] === "check" ? 1 : 0 });
  expect(out.trim()).not.toBe("");
  const missing = words.filter((word) => /\.(pdf|json|xlsx)$/.test(word) && !existsSync(join(folder, word)));
  expect(missing).toEqual([]);
});

it("an issue written again is the same to the byte", async () => {
  await run("report", "tarn.coldstock", "once-more.pdf", "--issue", "1");
  expect(readFileSync("once-more.pdf").equals(readFileSync("again.pdf"))).toBe(true);
});

it("the map in README is the one that the commands beside it make", () => {
  const shown = readFileSync(join(root, "test/e2e/screens/readme-study-map.svg"), "utf8");
  expect(readFileSync("study-map.svg", "utf8")).toBe(shown);
});
