/** Finds an Electron to test the desktop program with: the official one of the `electron` package, else the test runtime. */
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import {
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { promisify } from "node:util";
import { equipmentCache } from "./cache.ts";
import { root } from "./project.ts";
import { RUNTIME_VERSION, runtimeFolder } from "./runtime-archive.ts";

export interface ElectronEquipment {
  readonly executablePath: string;
  /** Before the program's own arguments. */
  readonly args: readonly string[];
  /** Added to the environment. */
  readonly env: Readonly<Record<string, string>>;
  /** The runtime without a program in it, for a package to be made of. */
  readonly bare: { readonly folder: string; readonly version: string };
  /** For the run's log: which one this is. */
  readonly says: string;
}

const packageFolder = join(root, "node_modules/electron");
const OFFICIAL_WAIT_MS = 300_000;

const officialPath = (): string | null => {
  const note = join(packageFolder, "path.txt");
  if (!existsSync(note)) return null;
  const path = join(packageFolder, "dist", readFileSync(note, "utf8").trim());
  return existsSync(path) ? path : null;
};

/** The package downloads its binary when asked for the first time; where that fails, this says why. */
const official = async (): Promise<ElectronEquipment> => {
  if (officialPath() === null)
    await promisify(execFile)(process.execPath, [join(packageFolder, "install.js")], { timeout: OFFICIAL_WAIT_MS });
  const executablePath = officialPath();
  if (executablePath === null) throw new Error("the electron package brought no binary");
  const { version } = JSON.parse(readFileSync(join(packageFolder, "package.json"), "utf8")) as { version: string };
  return {
    executablePath,
    args: ["--no-sandbox", root],
    env: {},
    bare: { folder: join(packageFolder, "dist"), version },
    says: "the official binary of the electron package",
  };
};

const everyFile = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

/**
 * The runtime as this project's program: the same files by hard links, with `resources/app` leading to the project. One
 * for each project folder, so that two copies of the project do not meet.
 */
const dressed = (runtime: string): string => {
  const mark = createHash("sha256").update(root).update(runtime).digest("hex").slice(0, 12);
  const place = join(equipmentCache(), `for-${mark}`);
  const ready = join(place, "ready");
  if (existsSync(ready)) return place;
  rmSync(place, { recursive: true, force: true });
  for (const file of everyFile(runtime)) {
    const copy = join(place, file.slice(runtime.length));
    mkdirSync(dirname(copy), { recursive: true });
    linkSync(file, copy);
  }
  mkdirSync(join(place, "resources"));
  symlinkSync(root, join(place, "resources/app"));
  writeFileSync(ready, "");
  return place;
};

/** Its Node is too old for the database module, so the service runs on the Node that runs this test. */
const testRuntime = async (): Promise<ElectronEquipment> => {
  const folder = await runtimeFolder(existsSync);
  return {
    executablePath: join(dressed(folder), "electron"),
    // There is no graphics processor behind a virtual screen, and starting without one on its own sometimes never ends.
    args: ["--no-sandbox", "--disable-gpu"],
    env: { COLDSTOCK_SERVICE_NODE: process.execPath },
    bare: { folder, version: RUNTIME_VERSION },
    says: "the test runtime (Electron 33; the service on Node 24 beside it), because the official binary cannot be had",
  };
};

const wordsOf = (error: unknown): string =>
  error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);

/** Throws, with both reasons, where neither can be had. */
export const findElectron = async (): Promise<ElectronEquipment> => {
  const reasons: string[] = [];
  for (const way of [official, testRuntime]) {
    try {
      return await way();
    } catch (error) {
      reasons.push(wordsOf(error));
    }
  }
  throw new Error(`no Electron to test with: ${reasons.join("; ")}`);
};
