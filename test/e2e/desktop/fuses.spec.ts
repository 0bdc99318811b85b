/** Item 19 of Electron's security checklist: the fuses of a package, set in a real binary, read back and tried. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { FuseState, FuseV1Options, FuseVersion, flipFuses, getCurrentFuseWire } from "@electron/fuses";
import { expect, test } from "@playwright/test";
import { packageFuses } from "../../../main/desktop/fuses.ts";
import { findElectron } from "../equipment/electron.ts";

const names = Object.keys(packageFuses) as (keyof typeof packageFuses)[];

const asNode = (binary: string): string =>
  spawnSync(binary, ["-e", "console.log('plain ' + 'node')"], {
    env: { ...process.env, ELECTRON_RUN_AS_NODE: "1", DISPLAY: "" },
    encoding: "utf8",
    timeout: 20_000,
  }).stdout;

test("item 19: the fuses of a package close what they should", async () => {
  const { executablePath } = await findElectron();
  const folder = mkdtempSync(join(tmpdir(), "coldstock-fuses-"));
  try {
    // The runtime without a program in it.
    cpSync(dirname(executablePath), folder, { recursive: true, filter: (from) => !from.includes("/resources") });
    const binary = join(folder, "electron");
    expect(asNode(binary)).toContain("plain node");
    await flipFuses(binary, {
      version: FuseVersion.V1,
      ...Object.fromEntries(names.map((name) => [FuseV1Options[name], packageFuses[name]])),
    });
    const wire = await getCurrentFuseWire(binary);
    for (const name of names)
      expect(wire[FuseV1Options[name]], name).toBe(packageFuses[name] ? FuseState.ENABLE : FuseState.DISABLE);
    expect(asNode(binary)).not.toContain("plain node");
  } finally {
    rmSync(folder, { recursive: true });
  }
});
