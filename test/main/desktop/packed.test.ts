/** What `npm pack` takes: the built program and its papers, and nobody's ledger, wherever one lies. */
import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { root } from "../../e2e/equipment/project.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-packed-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ledgers = [
  "tarn.coldstock",
  "tarn.coldstock-wal",
  "data/tarn.coldstock",
  "out/main/tarn.coldstock",
  "out/main/tarn.coldstock.form-140.backup",
  "out/renderer/deep/tarn.coldstock",
  "out/test-home/copies/tarn.coldstock",
];
const program = [
  "out/main/cli.js",
  "out/main/migrations/0010-initial.sql",
  "out/preload/preload.cjs",
  "out/renderer/index.html",
];

it("a pack holds the program and no ledger", () => {
  copyFileSync(join(root, "package.json"), join(folder, "package.json"));
  for (const name of [...ledgers, ...program, "LICENSE", "README.md"]) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), "x");
  }
  const { stdout, stderr } = spawnSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts", "--offline"], {
    cwd: folder,
    encoding: "utf8",
  });
  if (!stdout.startsWith("[")) throw new Error(`npm said: ${stderr}`);
  const [pack] = JSON.parse(stdout) as readonly { readonly files: readonly { readonly path: string }[] }[];
  expect(pack?.files.map(({ path }) => path).toSorted()).toEqual(
    [...program, "LICENSE", "README.md", "package.json"].toSorted(),
  );
});
