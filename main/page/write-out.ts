/**
 * The one writer of every file that leaves the program: reports, tables, documents, charts. Whole or not at all, never
 * over a ledger, never over what it was read from, and over nothing else unless that was said.
 */
import { randomBytes } from "node:crypto";
import {
  type BigIntStats,
  closeSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import { kindOfDatabase } from "../../db/file-header.ts";
import { syncFolder } from "../../db/sync-folder.ts";

export interface Permission {
  /** The person said that what stands there may go: `--replace`, or yes in the window. */
  readonly mayReplace: boolean;
  /** What the content was read from, if it was a file. It is never written over, whatever it is called. */
  readonly from: string | null;
}

/** Permission bits of a file whom the folder lets everybody see. */
const OPEN_MODE = 0o666;
const PERMISSIONS = 0o7777;
/** Endings of what SQLite keeps beside a database. */
const COMPANION = /-(wal|shm|journal)$/;

const because = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const storage = (path: string, words: string) => new PlanningError("storage", `${basename(path)} ${words}`);

const statOf = (path: string): BigIntStats | null => statSync(path, { bigint: true, throwIfNoEntry: false }) ?? null;

/** A link is followed: its target is what is replaced, and the link stays. */
const followed = (path: string): string => {
  if (lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() !== true) return path;
  try {
    return realpathSync(path);
  } catch {
    throw storage(path, "is a link to a file that is not there. Name the file itself.");
  }
};

const beginning = (path: string): Buffer => {
  const file = openSync(path, "r");
  try {
    const bytes = Buffer.alloc(100);
    return bytes.subarray(0, readSync(file, bytes, 0, bytes.length, 0));
  } finally {
    closeSync(file);
  }
};

const databaseAt = (path: string): "ledger" | "database" | null =>
  statOf(path)?.isFile() === true ? kindOfDatabase(beginning(path)) : null;

const isSame = (path: string, other: string | null): boolean => {
  const [one, two] = [statOf(path), other === null ? null : statOf(other)];
  return one !== null && two !== null && one.dev === two.dev && one.ino === two.ino;
};

const refuseDatabase = (path: string, from: string | null): void => {
  const kind = databaseAt(path);
  if (kind === "ledger") throw storage(path, "is a ledger. It is not written over; choose another name.");
  if (kind === "database") throw storage(path, "is a database. It is not written over; choose another name.");
  if (!COMPANION.test(path)) return;
  const base = path.replace(COMPANION, "");
  // Our own open ledger is not opened again to look: closing it would drop this process's locks on it.
  if (isSame(base, from) || databaseAt(base) !== null)
    throw storage(path, `is the name of a log of ${basename(base)}. Choose another name.`);
};

/** What stands at the place, null for nothing; throws "storage" where it may not be replaced. */
const standing = (path: string, { mayReplace, from }: Permission): BigIntStats | null => {
  const there = statOf(path);
  if (there === null) {
    refuseDatabase(path, from);
    return null;
  }
  if (!there.isFile()) throw storage(path, "cannot be written: it is a folder or a device, not a file.");
  if (isSame(path, from))
    throw storage(path, "is the file that is being read. It is not written over; choose another name.");
  refuseDatabase(path, from);
  if (!mayReplace)
    throw new PlanningError(
      "storage",
      `There is a file ${basename(path)} already. Choose another name, or say --replace to write over it.`,
    );
  return there;
};

/**
 * Whether the content may be written there, found out before it is made. Throws "storage" with the reason: there is a
 * ledger, another database, the file it is read from, a folder, or anything at all without permission to replace it.
 */
export const refusePlace = (path: string, permission: Permission): void => {
  try {
    standing(followed(path), permission);
  } catch (error) {
    if (error instanceof PlanningError) throw error;
    throw storage(path, `cannot be written: ${because(error)}.`);
  }
};

/** A replaced file keeps its mode and owner; a new one is no more open than its folder. */
const settle = (file: number, path: string, before: BigIntStats | null): void => {
  if (process.platform === "win32") return;
  if (before === null) {
    fchmodSync(file, fstatSync(file).mode & statSync(dirname(path)).mode & OPEN_MODE);
    return;
  }
  const now = fstatSync(file, { bigint: true });
  if (now.uid !== before.uid || now.gid !== before.gid) fchownSync(file, Number(before.uid), Number(before.gid));
  fchmodSync(file, Number(before.mode) & PERMISSIONS);
};

/** Twice, for a disk may fail once. */
const removeQuietly = (path: string): void => {
  for (let attempt = 0; attempt < 2; attempt += 1)
    try {
      rmSync(path, { force: true });
      return;
    } catch {
      // Whether the file was written is what the person must hear.
    }
};

/** Puts a new file in place: by a hard link, which never takes another's place; some file systems have none. */
const putNew = (draft: string, path: string): void => {
  try {
    linkSync(draft, path);
  } catch (error) {
    if (statOf(path) !== null) throw error;
    renameSync(draft, path);
    return;
  }
  removeQuietly(draft);
};

const confirm = (path: string, isNew: boolean): void => {
  try {
    syncFolder(dirname(path));
  } catch (error) {
    if (isNew) {
      removeQuietly(path);
      throw error;
    }
    throw storage(path, `was written, but the disk did not confirm it (${because(error)}). Check the disk.`);
  }
};

/**
 * Writes beside, syncs, puts in place, and syncs the folder. A link is followed. Throws "storage"; what was there before
 * then stays, unless the sentence says otherwise.
 */
export const writeOut = (path: string, content: string | Uint8Array, permission: Permission): void => {
  let draft: string | null = null;
  try {
    const target = followed(path);
    const before = standing(target, permission);
    const beside = join(dirname(target), `.${basename(target).slice(0, 100)}.${randomBytes(6).toString("hex")}.part`);
    const file = openSync(beside, "wx", before === null ? OPEN_MODE : 0o600);
    draft = beside;
    try {
      writeFileSync(file, content);
      settle(file, target, before);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    if (before === null) putNew(beside, target);
    else renameSync(beside, target);
    draft = null;
    confirm(target, before === null);
  } catch (error) {
    if (draft !== null) removeQuietly(draft);
    if (error instanceof PlanningError) throw error;
    throw storage(path, `cannot be written: ${because(error)}.`);
  }
};
