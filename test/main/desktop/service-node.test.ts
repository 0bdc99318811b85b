/** No program that the environment names is started by a package that is handed out. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { namedNode } from "../../../main/desktop/service-node.ts";
import product from "../../../package.json" with { type: "json" };

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-node-"));
  vi.stubEnv("COLDSTOCK_SERVICE_NODE", "/somebody/elses/program");
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

const app = (isPackaged: boolean, description: object) => {
  writeFileSync(join(folder, "package.json"), JSON.stringify(description));
  return { isPackaged, getAppPath: () => folder };
};

it("is taken while the program is worked on", () =>
  expect(namedNode(app(false, product))).toBe("/somebody/elses/program"));

it.each([[product], [{}], [{ takesNamedNode: "yes" }], [[]]])(
  "is not taken by a package described as %#",
  (described) => expect(namedNode(app(true, described))).toBeNull(),
);

it("is taken by a package that says so in its sealed archive, as the one made for the tests does", () =>
  expect(namedNode(app(true, { takesNamedNode: true }))).toBe("/somebody/elses/program"));

it("is read in one place alone", () => {
  const main = fileURLToPath(new URL("../../../main", import.meta.url));
  const readers = readdirSync(main, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".ts"))
    .filter((path) => readFileSync(join(main, path), "utf8").includes('env["COLDSTOCK_SERVICE_NODE"]'));
  expect(readers).toEqual(["desktop/service-node.ts"]);
});
