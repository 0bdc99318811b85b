/** Opens and makes ledger files: the door of this folder. */
import { accessSync, constants, existsSync, realpathSync, renameSync, rmSync, statSync } from "node:fs";
import { basename, dirname, resolve } from "node:path";
import Sqlite from "better-sqlite3";
import { PlanningError } from "../app/ground/failure.ts";
import type { LedgerDocument } from "../app/ledger/ledger-view.ts";
import type { LedgerStore } from "../app/contract/store.ts";
import { type Connection, connect, connectionOver } from "./connection.ts";
import { newestFaults } from "./digest-chain.ts";
import { inspectLedgerFile } from "./file-header.ts";
import { watchFile } from "./file-watch.ts";
import { ledgerStore } from "./ledger-store.ts";
import { keepOlderForm, migrate, newestVersion, readMigrations } from "./migrate.ts";
import { freeName, putNewFile, takeAwayNewFile } from "./new-file.ts";
import { isLogOfAnother, logPath, readPendingLog } from "./pending-log.ts";
import { copyInMemory } from "./read-only-copy.ts";
import { digestRowsAnew } from "./row-digest.ts";
import { withStorage } from "./storage-failure.ts";
import { syncFolder } from "./sync-folder.ts";
import { writeDocument } from "./write-document.ts";
import { takeWriterLock, type WriterLock } from "./writer-lock.ts";

export interface NewLedger {
  readonly programme: string;
  readonly isDemonstration?: boolean;
}

/** Behind links; as it stands where there is nothing. */
const realPath = (path: string): string => {
  try {
    return realpathSync(path);
  } catch {
    // What is wrong with it is said when its beginning is read.
    return resolve(path);
  }
};

const isWritable = (path: string): boolean => {
  try {
    accessSync(path, constants.W_OK);
    return true;
  } catch {
    return false;
  }
};

const refuseOlderForm = (version: number, newest: number, why: string): void => {
  if (version < newest)
    throw new PlanningError(
      "read-only",
      `The ledger is of an older form (${version}; this program needs ${newest}) and cannot be brought forward: ${why}.`,
    );
};

/** A damaged schema or a file that only looks like a ledger shows here, before anything is written. */
const refuseUnreadable = (db: Connection): void => {
  if (db.prepared("SELECT revision FROM ledger WHERE id = 1").get() === undefined)
    throw new PlanningError("not a ledger", "The ledger was never finished. It was left untouched.");
};

/** A log that cannot be read in is a part of the ledger that would be missing without a word. */
const refusePending = (path: string, why: string): void => {
  const log = readPendingLog(path);
  if (log === null) return;
  throw new PlanningError(
    "storage",
    `${basename(path)} cannot be read whole: ${log.pages} ${log.pages === 1 ? "page is" : "pages are"} pending in the log beside it and cannot be read in, because ${why}. Copy the ledger and its log (the file ending in -wal) into a folder that you may write in, and open it there.`,
  );
};

/** Through SQLite, with what another program wrote and has not yet moved into the file; null: not to be had so. */
const readLive = (path: string): Connection | null => {
  let db: Connection | null = null;
  try {
    db = connect(path, true);
    refuseUnreadable(db);
    return db;
  } catch (error) {
    db?.sqlite.close();
    if (error instanceof PlanningError) throw error;
    return null;
  }
};

const openReadOnly = (path: string, readOnlyBecause: string): LedgerStore => {
  // A ledger or folder that may not be written has no room for SQLite's shared memory: a copy of it in memory is read.
  // Where nobody writes, reading by SQLite itself would leave its shared memory lying beside the file.
  const isLive = existsSync(`${path}-shm`) || (isWritable(path) && isWritable(dirname(path)));
  const live = isLive ? readLive(path) : null;
  if (live === null) refusePending(path, readOnlyBecause);
  const db = live ?? copyInMemory(path, true);
  try {
    refuseUnreadable(db);
  } catch (error) {
    db.sqlite.close();
    throw error;
  }
  return ledgerStore(db, { path, readOnlyBecause, onClose: () => db.sqlite.close() });
};

/**
 * Opens the ledger at `path`. It is read-only, and says why, if the file may not be written or another program holds
 * it. An older form is brought to the newest after a backup copy. Throws {@link PlanningError} "storage" or "not a
 * ledger", and leaves the file untouched, if it is missing, a folder, damaged, newer or another program's.
 */
export const openLedger = (path: string): LedgerStore => withStorage(() => open(realPath(path)));

const open = (path: string): LedgerStore => {
  const steps = readMigrations();
  const version = inspectLedgerFile(path, newestVersion(steps));
  if (!isWritable(path) || !isWritable(dirname(path))) {
    const why = isWritable(path) ? "its folder may not be written" : "the file may not be written";
    refuseOlderForm(version, newestVersion(steps), why);
    return openReadOnly(path, why);
  }
  const lock = takeWriterLock(path);
  if (!lock.isHeld) {
    const why = `it is open in ${lock.holder}`;
    refuseOlderForm(version, newestVersion(steps), why);
    return openReadOnly(path, why);
  }
  try {
    putForeignLogAside(path);
    return openToWrite(path, version, lock);
  } catch (error) {
    lock.release();
    throw error;
  }
};

/** A copy was put in the place of the file since the log was written: the copy counts, and the log is kept apart. */
const putForeignLogAside = (path: string): void => {
  const log = readPendingLog(path);
  if (log === null || !isLogOfAnother(path, log)) return;
  rmSync(`${path}-shm`, { force: true });
  // A mark alone says nothing that was acknowledged.
  if (log.pages === 1) rmSync(logPath(path));
  else renameSync(logPath(path), freeName(`${path}.log-of-another-file`));
  syncFolder(dirname(path));
};

/** Entries and steps whose digests are looked at with every opening. */
const NEWEST = 50;

/** Why a ledger whose newest rows are not what was written must not be written on. */
const damageOf = (db: Connection): string | null => {
  const [fault] = newestFaults(db, NEWEST);
  return fault === undefined ? null : `the file is damaged (${fault.replace(/\.$/, "")})`;
};

const openToWrite = (path: string, version: number, lock: WriterLock): LedgerStore => {
  const steps = readMigrations();
  let db: Connection | null = null;
  try {
    if (version < newestVersion(steps)) keepOlderForm(path, version);
    const opened = connect(path, false);
    db = opened;
    refuseUnreadable(opened);
    migrate(opened, steps);
    opened.sqlite.pragma("journal_mode = WAL");
    // The log is moved into the file by the watch, which must know when.
    opened.sqlite.pragma("wal_autocheckpoint = 0");
    refuseUnreadable(opened);
    const watch = watchFile(opened, path);
    return ledgerStore(
      { ...opened, write: watch.write },
      {
        path,
        readOnlyBecause: damageOf(opened),
        stopped: watch.stopped,
        onClose: () => {
          watch.beforeClose();
          opened.sqlite.close();
          watch.afterClose();
          lock.release();
        },
      },
    );
  } catch (error) {
    db?.sqlite.close();
    throw error;
  }
};

/** Makes the file beside its place and puts it there whole: a half-made ledger is never seen under its name. */
const make = (path: string, fill: (db: Connection) => void): LedgerStore => {
  if (existsSync(path))
    throw new PlanningError("storage", "There is a file of that name already. Choose another name.", "path");
  if (!existsSync(dirname(path)) || !statSync(dirname(path)).isDirectory())
    throw new PlanningError("storage", "There is no such folder. Check the path.", "path");
  putNewFile(path, (draft) => {
    const db = connectionOver(new Sqlite(draft));
    try {
      migrate(db, readMigrations());
      fill(db);
      db.sqlite.pragma("journal_mode = WAL");
    } finally {
      db.sqlite.close();
    }
  });
  try {
    return open(realPath(path));
  } catch (error) {
    // Told failed is not done.
    takeAwayNewFile(path);
    throw error;
  }
};

/** Takes a ledger away that was just made and is closed again. Throws "storage" if its file still lies there. */
export const takeAwayLedger = (path: string): void => withStorage(() => takeAwayNewFile(resolve(path)));

/** Makes an empty ledger and opens it. Throws "storage" if there is a file of that name already or none can be made. */
export const createLedger = (path: string, ledger: NewLedger): LedgerStore =>
  withStorage(() =>
    make(resolve(path), (db) => {
      db.write(() => {
        db.prepared("INSERT INTO ledger (id, programme, is_demonstration, revision) VALUES (1, ?, ?, 0)").run(
          ledger.programme,
          Number(ledger.isDemonstration ?? false),
        );
        digestRowsAnew(db);
      });
    }),
  );

/** Makes a ledger from a document and opens it. Throws "refused" if the document breaks a rule; then no file is left. */
export const loadDocument = (path: string, document: LedgerDocument): LedgerStore =>
  withStorage(() => make(resolve(path), (db) => writeDocument(db, document)));
