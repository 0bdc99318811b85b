/**
 * One writer a ledger. The lock is a small database beside the file, whose write lock is held as long as the ledger is
 * open: the operating system drops it when the process ends, however it ends. The row in it says who holds it.
 */
import { randomUUID } from "node:crypto";
import { chmodSync, rmSync, statSync } from "node:fs";
import { hostname } from "node:os";
import { dirname, join } from "node:path";
import Sqlite from "better-sqlite3";

export interface WriterLock {
  readonly isHeld: true;
  release(): void;
}

export interface LockedOut {
  readonly isHeld: false;
  /** "process 1234 on host tarn, since 2031-02-20 08:00 UTC" */
  readonly holder: string;
}

/**
 * Beside the ledger, hidden where a leading dot hides. It is named by the number of the file, not by its name: a hard
 * link in the same folder, or a name in other letters, is no second ledger.
 */
export const lockPath = (ledgerPath: string): string => {
  const { dev, ino } = statSync(ledgerPath, { bigint: true });
  return join(dirname(ledgerPath), `.ledger-${dev}-${ino}.lock`);
};

/** Whether another program has this file open under another name, in whatever folder: SQLite's locks are on the file itself. */
const isOpenElsewhere = (ledgerPath: string): boolean => {
  if (statSync(ledgerPath).nlink < 2) return false;
  const probe = new Sqlite(ledgerPath, { fileMustExist: true, timeout: 0 });
  try {
    probe.pragma("locking_mode = EXCLUSIVE");
    probe.exec("BEGIN IMMEDIATE; ROLLBACK");
    return false;
  } catch (error) {
    if (isBusy(error)) return true;
    throw error;
  } finally {
    probe.close();
  }
};

const isBusy = (error: unknown) =>
  error instanceof Sqlite.SqliteError && (error.code.startsWith("SQLITE_BUSY") || error.code === "SQLITE_LOCKED");

const readHolder = (lock: Sqlite.Database): string => {
  try {
    const row = lock.prepare("SELECT words FROM holder").get() as { words: string } | undefined;
    return row?.words ?? "another program";
  } catch {
    // The holder is just writing its row: who it is can be asked again at the next opening.
    return "another program";
  }
};

const describeSelf = () =>
  `process ${process.pid} on host ${hostname()}, since ${new Date().toISOString().slice(0, 16).replace("T", " ")} UTC`;

/**
 * Whether the lock file in its place is the one that carries this mark. Read by SQLite, never by the file system: closing
 * any other handle of a file drops every lock that this process holds on it (POSIX advisory locks).
 */
const isInPlace = (path: string, mark: string): boolean => {
  let reader: Sqlite.Database | null = null;
  try {
    reader = new Sqlite(path, { readonly: true, fileMustExist: true, timeout: 0 });
    return reader.prepare("SELECT 1 FROM holder WHERE mark = ?").get(mark) !== undefined;
  } catch {
    // Swept away, or another's and just being written: not ours.
    return false;
  } finally {
    reader?.close();
  }
};

/** Takes the lock of the open lock file, or null if the file was swept away meanwhile by the holder before. */
const hold = (lock: Sqlite.Database, path: string): WriterLock | null => {
  const mark = randomUUID();
  lock.exec("BEGIN IMMEDIATE");
  lock.exec("CREATE TABLE IF NOT EXISTS holder (words TEXT, mark TEXT); DELETE FROM holder");
  lock.prepare("INSERT INTO holder VALUES (?, ?)").run(describeSelf(), mark);
  lock.exec("COMMIT; BEGIN IMMEDIATE");
  // The holder before us may have removed the file between our opening and our locking it: then we hold a ghost.
  if (!isInPlace(path, mark)) return null;
  const release = () => {
    try {
      rmSync(path, { force: true });
    } catch {
      // It is the lock within the file that counts; the next holder sweeps the file away.
    }
    lock.close();
  };
  return { isHeld: true, release };
};

const ATTEMPTS = 5;

/** Tries to become the one writer of the ledger at `ledgerPath`. */
export const takeWriterLock = (ledgerPath: string): WriterLock | LockedOut => {
  const path = lockPath(ledgerPath);
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    const lock = new Sqlite(path, { timeout: 0 });
    try {
      chmodSync(path, 0o600);
      // No journal on disk, no flush: the row is only a name, and a lost one is written anew.
      lock.pragma("journal_mode = MEMORY");
      lock.pragma("synchronous = OFF");
      const held = hold(lock, path);
      if (held === null) {
        lock.close();
        continue;
      }
      if (!isOpenElsewhere(ledgerPath)) return held;
      held.release();
      return { isHeld: false, holder: "another program, under another name of the same file" };
    } catch (error) {
      if (isBusy(error)) {
        const holder = readHolder(lock);
        lock.close();
        return { isHeld: false, holder };
      }
      lock.close();
      throw error;
    }
  }
  return { isHeld: false, holder: "another program" };
};
