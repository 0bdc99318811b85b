/** Starters for a Node that lacks something: a launcher script that stands where the Node executable would. */
import { execFileSync } from "node:child_process";
import { chmodSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** A script that runs `before "$@"`, with "$@" a Node command line. */
const launcher = (folder: string, name: string, lines: readonly string[]): string => {
  const path = join(folder, name);
  writeFileSync(path, ["#!/bin/bash", ...lines, ""].join("\n"));
  chmodSync(path, 0o755);
  return path;
};

const isRoot = (): boolean => process.getuid?.() === 0;

/** root may write what is marked read-only; without this capability it is bound by the mark like anybody else. */
export const nodeBoundByPermissions = (folder: string): string =>
  isRoot()
    ? launcher(folder, "bound-node", [
        `exec setpriv --bounding-set=-dac_override --inh-caps=-dac_override ${process.execPath} "$@"`,
      ])
    : process.execPath;

/** No file may grow beyond `kib`; a write beyond it fails, without the signal that would end the process. */
export const nodeWithSmallFiles = (folder: string, kib: number): string =>
  launcher(folder, "small-files-node", ["trap '' XFSZ", `ulimit -f ${kib}`, `exec ${process.execPath} "$@"`]);

/** A file system of its own with little room, mounted at `folder`; null: this machine does not allow it. */
export const mountSmallDisk = (folder: string, kib: number): { unmount(): void } | null => {
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", `size=${kib}k`, "tmpfs", folder], { stdio: "ignore" });
    return { unmount: () => execFileSync("umount", [folder]) };
  } catch {
    return null;
  }
};
