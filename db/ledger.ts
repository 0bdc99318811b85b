/** Opens and makes ledger files: the door of this folder. */
import { accessSync, constants, existsSync, linkSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname, resolve } from "node:path";
import Sqlite from "better-sqlite3";
import { PlanningError } from "../app/contract/failure.ts";
import type { LedgerDocument } from "../app/contract/ledger-view.ts";
import type { LedgerStore } from "../app/ledger/store.ts";
import { type Connection, connect, connectionOver } from "./connection.ts";
import { inspectLedgerFile } from "./file-header.ts";
import { ledgerStore } from "./ledger-store.ts";
import { migrate, newestVersion, readSteps } from "./migrate.ts";
import { copyInMemory } from "./read-only-copy.ts";
import { withStorage } from "./storage-failure.ts";
import { writeDocument } from "./write-document.ts";
import { takeWriterLock } from "./writer-lock.ts";

export interface NewLedger {
  readonly programme: string;
  readonly isDemonstration?: boolean;
}

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

const openReadOnly = (path: string, readOnlyBecause: string): LedgerStore => {
  // A ledger or folder that may not be written has no room for SQLite's shared memory: a copy of it in memory is read.
  // Where nobody writes, reading by SQLite itself would leave its shared memory lying beside the file.
  const isLive = existsSync(`${path}-shm`) || (isWritable(path) && isWritable(dirname(path)));
  const db = isLive ? connect(path, true) : copyInMemory(path, true);
  try {
    refuseUnreadable(db);
  } catch (error) {
    db.sqlite.close();
    throw error;
  }
  return ledgerStore(db, { path, readOnlyBecause, onClose: () => undefined });
};

/**
 * Opens the ledger at `path`. It is read-only, and says why, if the file may not be written or another program holds
 * it. An older form is brought to the newest after a backup copy. Throws {@link PlanningError} "storage" or "not a
 * ledger", and leaves the file untouched, if it is missing, a folder, damaged, newer or another program's.
 */
export const openLedger = (path: string): LedgerStore => withStorage(() => open(resolve(path)));

const open = (path: string): LedgerStore => {
  const steps = readSteps();
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
  let db: Connection | null = null;
  try {
    db = connect(path, false);
    refuseUnreadable(db);
    migrate(db, steps, path);
    db.sqlite.pragma("journal_mode = WAL");
    return ledgerStore(db, { path, readOnlyBecause: null, onClose: lock.release });
  } catch (error) {
    db?.sqlite.close();
    lock.release();
    throw error;
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

/** Makes the file beside its place and puts it there whole: a half-made ledger is never seen under its name. */
const make = (path: string, fill: (db: Connection) => void): void => {
  if (existsSync(path))
    throw new PlanningError("storage", "There is a file of that name already. Choose another name.", "path");
  if (!existsSync(dirname(path)) || !statSync(dirname(path)).isDirectory())
    throw new PlanningError("storage", "There is no such folder. Check the path.", "path");
  const draft = `${path}.${process.pid}.draft`;
  rmSync(draft, { force: true });
  try {
    const db = connectionOver(new Sqlite(draft));
    try {
      migrate(db, readSteps(), null);
      fill(db);
      db.sqlite.pragma("journal_mode = WAL");
    } finally {
      db.sqlite.close();
    }
    putInPlace(draft, path);
  } finally {
    for (const rest of [draft, `${draft}-wal`, `${draft}-shm`, `${draft}-journal`]) rmSync(rest, { force: true });
  }
};

/** Makes an empty ledger and opens it. Throws "storage" if there is a file of that name already or none can be made. */
export const createLedger = (path: string, ledger: NewLedger): LedgerStore =>
  withStorage(() => {
    make(resolve(path), (db) => {
      db.prepared("INSERT INTO ledger VALUES (1, ?, ?, NULL, 0)").run(
        ledger.programme,
        Number(ledger.isDemonstration ?? false),
      );
    });
    return open(resolve(path));
  });

/** Makes a ledger from a document and opens it. Throws "refused" if the document breaks a rule; then no file is left. */
export const loadDocument = (path: string, document: LedgerDocument): LedgerStore =>
  withStorage(() => {
    make(resolve(path), (db) => writeDocument(db, document));
    return open(resolve(path));
  });
