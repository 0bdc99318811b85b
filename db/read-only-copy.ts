/** Reads a ledger file that is not to be touched: no lock, no newer form, no shared memory left lying beside it. */
import { existsSync, readFileSync, statSync } from "node:fs";
import { basename, resolve } from "node:path";
import Sqlite from "better-sqlite3";
import { PlanningError } from "../app/ground/failure.ts";
import type { LedgerDocument } from "../app/ledger/ledger-view.ts";
import type { LedgerState } from "../app/copies/go-back.ts";
import { type Connection, connect, connectionOver } from "./connection.ts";
import { inspectLedgerFile } from "./file-header.ts";
import { ledgerStore } from "./ledger-store.ts";
import { migrate, newestVersion, readMigrations } from "./migrate.ts";
import { withStorage } from "./storage-failure.ts";

/** In SQLite's header, 1 for a rollback journal, 2 for a write-ahead log: a copy in memory can only have the former. */
const JOURNAL_FORMS_AT = 18;

/** The file's bytes as a database in memory. */
export const copyInMemory = (path: string, isReadOnly: boolean): Connection => {
  const bytes = readFileSync(path);
  bytes.fill(1, JOURNAL_FORMS_AT, JOURNAL_FORMS_AT + 2);
  return connectionOver(new Sqlite(bytes, { readonly: isReadOnly }));
};

/** What another program wrote and has not yet moved into the file itself. */
const hasPendingLog = (path: string): boolean => existsSync(`${path}-wal`) && statSync(`${path}-wal`).size > 0;

const openUntouched = (path: string): Connection => {
  const steps = readMigrations();
  const version = inspectLedgerFile(path, newestVersion(steps));
  if (hasPendingLog(path)) {
    if (version < newestVersion(steps))
      throw new PlanningError(
        "read-only",
        `${basename(path)} is of an older form and was not closed. Open it once with this program, close it, and merge then.`,
      );
    return connect(path, true);
  }
  const copy = copyInMemory(path, false);
  migrate(copy, steps);
  return copy;
};

/** The whole ledger at `path` as a document. Throws "not a ledger" or "storage" as opening it would; the file is untouched. */
export const readLedgerFile = (path: string): LedgerDocument =>
  withStorage(() => {
    const db = openUntouched(resolve(path));
    return withStore(db, path);
  });

/** What is wrong in the ledger at `path`, in words; the file is untouched. Throws as {@link readLedgerFile} does. */
export const faultsIn = (path: string): readonly string[] =>
  withStorage(() => {
    const db = openUntouched(resolve(path));
    try {
      return untouchedStore(db, path).verify().faults;
    } finally {
      db.sqlite.close();
    }
  });

/** The whole ledger at `path` with its place in its history; the file is untouched. */
export const readLedgerState = (path: string): LedgerState =>
  withStorage(() => {
    const db = openUntouched(resolve(path));
    try {
      const store = untouchedStore(db, path);
      const id = store.newestStepId();
      const at = store.stepAt(id);
      const newestStep = at === null ? null : { id, at };
      return { document: store.document(), revision: store.header().revision, newestStep };
    } finally {
      db.sqlite.close();
    }
  });

/** How many edits the ledger at `path` has seen; null: it cannot be read. */
export const revisionIn = (path: string): number | null => {
  try {
    const db = connect(path, true);
    try {
      return db.prepared("SELECT revision FROM ledger WHERE id = 1").pluck().get() as number;
    } finally {
      db.sqlite.close();
    }
  } catch {
    // Not there, or no ledger.
    return null;
  }
};

const untouchedStore = (db: Connection, path: string) =>
  ledgerStore(db, { path, readOnlyBecause: "it is only read", onClose: () => undefined });

const withStore = (db: Connection, path: string): LedgerDocument => {
  try {
    if (db.prepared("SELECT revision FROM ledger WHERE id = 1").get() === undefined)
      throw new PlanningError("not a ledger", "The ledger was never finished. It was left untouched.");
    return untouchedStore(db, path).document();
  } finally {
    db.sqlite.close();
  }
};
