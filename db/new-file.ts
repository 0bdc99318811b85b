/** Puts a new file in its place: made beside it, for its owner alone, synced, never over another. */
import { closeSync, existsSync, fsyncSync, linkSync, openSync, renameSync, rmSync } from "node:fs";
import { dirname } from "node:path";
import { syncFolder } from "./sync-folder.ts";

/** `path`, or the first of `path.2`, `path.3` … that is not taken. */
export const freeName = (path: string): string => {
  if (!existsSync(path)) return path;
  for (let n = 2; ; n += 1) if (!existsSync(`${path}.${n}`)) return `${path}.${n}`;
};

const sync = (path: string): void => {
  const file = openSync(path, "r+");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
};

/** A hard link never replaces a file that came there meanwhile; some file systems have none, and there a rename must do. */
const putInPlace = (draft: string, path: string): void => {
  try {
    linkSync(draft, path);
  } catch (error) {
    if (existsSync(path)) throw error;
    renameSync(draft, path);
  }
};

const begin = (path: string): string => {
  const draft = `${path}.${process.pid}.draft`;
  rmSync(draft, { force: true });
  closeSync(openSync(draft, "wx", 0o600));
  return draft;
};

const finish = (draft: string, path: string): void => {
  sync(draft);
  putInPlace(draft, path);
  try {
    syncFolder(dirname(path));
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  }
};

/** Tries twice, for a disk may fail once; what then still lies there changes nothing of what was done or not. */
const remove = (path: string): void => {
  for (let attempt = 0; attempt < 2; attempt += 1)
    try {
      rmSync(path, { force: true });
      return;
    } catch {
      // Once more.
    }
};

const tidy = (draft: string): void => {
  for (const rest of [draft, `${draft}-wal`, `${draft}-shm`, `${draft}-journal`]) remove(rest);
};

/** Takes a new file away again, and what its database kept beside it. Throws where the file still lies there then. */
export const takeAwayNewFile = (path: string): void => {
  tidy(path);
  rmSync(path, { force: true });
  syncFolder(dirname(path));
};

/**
 * `fill` gets the path of an empty draft, which only its owner may read, and leaves it closed. When this comes back, the
 * file is on the disk under its name; when it throws, there is none.
 */
export const putNewFile = (path: string, fill: (draft: string) => void): void => {
  const draft = begin(path);
  try {
    fill(draft);
    finish(draft, path);
  } finally {
    tidy(draft);
  }
};

/** The same for what takes its time to be filled. */
export const putNewFileLater = async (path: string, fill: (draft: string) => Promise<void>): Promise<void> => {
  const draft = begin(path);
  try {
    await fill(draft);
    finish(draft, path);
  } finally {
    tidy(draft);
  }
};
