/** The program as a package: made by its own configuration, unpacked, on the runtime at hand. Nothing is downloaded. */
import { execFile, execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { findElectron } from "./electron.ts";
import { root } from "./project.ts";

export interface MadePackage {
  readonly executable: string;
  readonly archive: string;
  /** Runs a script in the runtime's own Node, which reads archives as folders; answers what it printed. */
  asNode(script: string, ...given: readonly string[]): string;
}

/** Takes the built program (`out/`) as it is. About ten seconds. */
export const makePackage = async (output: string): Promise<MadePackage> => {
  const { bare } = await findElectron();
  const product = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { build: object };
  const configuration = join(output, "configuration.json");
  writeFileSync(
    configuration,
    JSON.stringify({
      ...product.build,
      directories: { output },
      electronDist: bare.folder,
      electronVersion: bare.version,
      // The test runtime's Node is too old for the database module; only a package that says so takes another.
      extraMetadata: { takesNamedNode: true },
    }),
  );
  await promisify(execFile)(
    process.execPath,
    [
      join(root, "node_modules/electron-builder/cli.js"),
      "--linux",
      "dir",
      "--publish",
      "never",
      "--projectDir",
      root,
      "--config",
      configuration,
    ],
    { maxBuffer: 1e8 },
  );
  const folder = join(output, "linux-unpacked");
  return {
    executable: join(folder, "coldstock"),
    archive: join(folder, "resources/app.asar"),
    asNode: (script, ...given) =>
      execFileSync(join(bare.folder, "electron"), ["-e", script, ...given], {
        env: { ...process.env, ELECTRON_RUN_AS_NODE: "1" },
        encoding: "utf8",
        maxBuffer: 1e8,
      }),
  };
};

/** Copies what the archive holds to where a plain Node finds it (main/desktop/outside-archive.ts). */
const COPY_OUT = `
  const { mkdirSync, readFileSync, readdirSync, writeFileSync } = require("node:fs");
  const copy = (from, to) => {
    mkdirSync(to, { recursive: true });
    for (const entry of readdirSync(from, { withFileTypes: true }))
      if (entry.isDirectory()) copy(from + "/" + entry.name, to + "/" + entry.name);
      else writeFileSync(to + "/" + entry.name, readFileSync(from + "/" + entry.name));
  };
  copy(process.argv[1], process.argv[1] + ".unpacked");
`;

export const unpackBeside = (made: MadePackage): void => void made.asNode(COPY_OUT, made.archive);
