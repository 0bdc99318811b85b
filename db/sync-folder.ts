/** Makes sure that a name in a folder is on the disk, not only in the system's memory. */
import { closeSync, fsyncSync, openSync } from "node:fs";

/** Codes of systems and disks whose folders cannot be synced and need not be. */
const NEEDLESS: ReadonlySet<unknown> = new Set(["EINVAL", "ENOTSUP", "EISDIR", "EBADF"]);

/** Throws the system's error where the disk refuses. Windows has no way to do it. */
export const syncFolder = (folder: string): void => {
  if (process.platform === "win32") return;
  const handle = openSync(folder, "r");
  try {
    fsyncSync(handle);
  } catch (error) {
    if (!NEEDLESS.has((error as { code?: unknown }).code)) throw error;
  } finally {
    closeSync(handle);
  }
};
