/** Puts a copy in the place of a ledger that no connection of this process has open: whole or not at all, and no old log reaches it. */
import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import { basename, dirname, resolve } from "node:path";
import { PlanningError } from "../app/ground/failure.ts";
import { connect } from "./connection.ts";
import { inspectLedgerFile } from "./file-header.ts";
import { dropMark } from "./log-mark.ts";
import { newestVersion, readMigrations } from "./migrate.ts";
import { freeName } from "./new-file.ts";
import { logPath } from "./pending-log.ts";
import { faultsIn, revisionIn } from "./read-only-copy.ts";
import { withStorage } from "./storage-failure.ts";
import { syncFolder } from "./sync-folder.ts";
import { takeWriterLock } from "./writer-lock.ts";

/** The form since which a file says which log is its own. */
const MARKED_FROM = 100;

const refused = (words: string) => new PlanningError("storage", words);

/** Brings the log into the file, so that nothing is lost if the putting back ends half-way; false: it cannot be read. */
const emptyLog = (path: string): boolean => {
  try {
    const db = connect(path, false);
    try {
      const [result] = db.sqlite.pragma("wal_checkpoint(TRUNCATE)") as { busy: number }[];
      if (result?.busy !== 0)
        throw refused(`${basename(path)} is being read by another program. Close it there, and go back then.`);
      return true;
    } finally {
      db.sqlite.close();
    }
  } catch (error) {
    if (error instanceof PlanningError) throw error;
    return false;
  }
};

/** A file that is no ledger any more is kept beside, with its log: somebody may want to look at it. */
const putAside = (path: string): void => {
  const aside = freeName(`${path}.put-aside`);
  linkSync(path, aside);
  if (existsSync(logPath(path))) renameSync(logPath(path), logPath(aside));
};

/** A draft beside the place, with nothing in it that an old log could belong to, synced. */
const makeDraft = (copy: string, path: string, version: number): string => {
  const draft = `${path}.${process.pid}.draft`;
  rmSync(draft, { force: true });
  copyFileSync(copy, draft, constants.COPYFILE_EXCL);
  chmodSync(draft, existsSync(path) ? statSync(path).mode & 0o777 : 0o600);
  const db = connect(draft, false);
  try {
    db.sqlite.pragma("journal_mode = DELETE");
    db.write(() => {
      if (version >= MARKED_FROM) dropMark(db);
      // What was computed of one state is known by its number: the number of a state that was must not come again.
      db.prepared("UPDATE ledger SET revision = max(revision, ?) + 1").run(revisionIn(path) ?? 0);
    });
  } finally {
    db.sqlite.close();
  }
  const file = openSync(draft, "r+");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  return draft;
};

/** What stands at the place, and its log, must neither be lost nor reach what comes into the place. */
const clear = (path: string, keepsAside: boolean): void => {
  if (!existsSync(path)) {
    // A log whose file has gone may be all that is left of something.
    if (existsSync(logPath(path))) renameSync(logPath(path), freeName(`${path}.log-of-another-file`));
  } else if (keepsAside || !emptyLog(path)) putAside(path);
  rmSync(`${path}-shm`, { force: true });
};

const replace = (copy: string, path: string, version: number, keepsAside: boolean): void => {
  const draft = makeDraft(copy, path, version);
  try {
    clear(path, keepsAside);
    renameSync(draft, path);
  } finally {
    rmSync(draft, { force: true });
  }
  try {
    syncFolder(dirname(path));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw refused(`The copy was put back, but the disk did not confirm it (${why}). Check the disk.`);
  }
};

/**
 * Throws "storage" or "not a ledger", and leaves what stands at `path` as it is: the copy is not sound, another program
 * has the ledger open, or it may not be written. `keepsAside`: what stands there is kept beside as `.put-aside`; so is, in
 * any case, a file that SQLite cannot read.
 */
export const putBack = (copy: string, path: string, keepsAside: boolean): void =>
  withStorage(() => {
    const place = existsSync(path) ? realpathSync(path) : resolve(path);
    const version = inspectLedgerFile(copy, newestVersion(readMigrations()));
    const [fault] = faultsIn(copy);
    if (fault !== undefined)
      throw new PlanningError(
        "not a ledger",
        `The copy is not sound (${fault.replace(/\.$/, "")}). Nothing was changed.`,
      );
    if (!existsSync(place)) {
      replace(copy, place, version, keepsAside);
      return;
    }
    const lock = takeWriterLock(place);
    if (!lock.isHeld) throw refused(`The ledger is open in ${lock.holder}. Close it there; nothing was changed.`);
    try {
      replace(copy, place, version, keepsAside);
    } finally {
      lock.release();
    }
  });
