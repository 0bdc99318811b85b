/**
 * Watches the file under an open ledger: that it is still the file that was opened, that a refused step leaves nothing
 * in the log, and that the log stays small and bound to its file. On a difference nothing more is taken.
 */
import { type BigIntStats, closeSync, fsyncSync, ftruncateSync, openSync, readSync, rmSync, statSync } from "node:fs";
import { basename } from "node:path";
import Sqlite from "better-sqlite3";
import { PlanningError } from "../app/ground/failure.ts";
import type { Connection } from "./connection.ts";
import { renewMark, repeatMark } from "./log-mark.ts";
import { logPath } from "./pending-log.ts";

export interface FileWatch {
  /** Why nothing more is taken, as a clause; null: all is well. */
  stopped(): string | null;
  /** A transaction that is done on the disk when it comes back, and not at all when it throws. */
  write<T>(action: () => T): T;
  /** Before the connection is closed: what is in the log must not reach a file that is another's by now. */
  beforeClose(): void;
  afterClose(): void;
}

/** The log is moved into the file when it has grown to this, bytes. */
const LONG_LOG = 4_096_000;
/** In the index of the log: frames that count, and the size of a page (sqlite.org/walformat.html, section 2.1). */
const INDEX_BYTES = 24;
const PAGE_SIZE_AT = 14;
const FRAMES_AT = 16;
const LOG_HEADER = 32;
const FRAME_HEADER = 24;

type Seen = Pick<BigIntStats, "dev" | "ino" | "size" | "mtimeNs">;
type Loss = "gone" | "other file" | "changed" | "log gone";

const look = (path: string): BigIntStats | null => statSync(path, { bigint: true, throwIfNoEntry: false }) ?? null;

const isSameFile = (now: BigIntStats | null, seen: Pick<Seen, "dev" | "ino"> | null): boolean =>
  now !== null && seen !== null && now.dev === seen.dev && now.ino === seen.ino;

const words: Readonly<Record<Loss, string>> = {
  gone: "was deleted or moved while it was open",
  "other file": "was replaced by another file while it was open",
  changed: "was changed by another program while it was open",
  "log gone": "lost the log beside it (the file ending in -wal) while it was open",
};

const isDiskFailure = (error: unknown): boolean =>
  error instanceof Sqlite.SqliteError && (error.code.startsWith("SQLITE_IOERR") || error.code === "SQLITE_FULL");

export const watchFile = (db: Connection, path: string): FileWatch => {
  const log = logPath(path);
  const name = basename(path);
  // Held until the connection is closed: closing any handle of this file drops the locks that SQLite has on it.
  const index = openSync(`${path}-shm`, "r");
  const seenIndex = look(`${path}-shm`);
  let seen: Seen | null = look(path);
  let seenLog: Pick<Seen, "dev" | "ino"> | null = look(log);
  let loss: Loss | null = null;
  let stop: string | null = null;
  let isMarked = false;
  /** A log begins anew, now or at some later step: each step repeats the mark until one has begun with it. */
  let isLogFresh = true;
  let isLogEmptied = true;
  let isFileWritten = false;

  /** Only after our own writing: what another wrote meanwhile must not be taken for ours. */
  const remember = (): void => {
    if (isFileWritten) seen = look(path);
    isFileWritten = false;
    seenLog ??= look(log);
  };
  /** Moves the log into the file and empties it; false: a reader is in the way. */
  const emptyLog = (): boolean => {
    isLogFresh = true;
    isFileWritten = true;
    isLogEmptied = false;
    const [result] = db.sqlite.pragma("wal_checkpoint(TRUNCATE)") as { busy: number }[];
    // The pages that it keeps in memory would grow with the ledger all day.
    db.sqlite.pragma("shrink_memory");
    isLogEmptied = result?.busy === 0;
    return isLogEmptied;
  };
  const lossNow = (): Loss | null => {
    const now = look(path);
    if (now === null) return "gone";
    if (!isSameFile(now, seen)) return "other file";
    // Windows writes sizes and instants of open files down when it likes.
    const isTouched = now.size !== seen?.size || now.mtimeNs !== seen.mtimeNs;
    if (isTouched && process.platform !== "win32") return "changed";
    return seenLog !== null && !isSameFile(look(log), seenLog) ? "log gone" : null;
  };
  const refuseLoss = (): void => {
    if (stop === null) {
      loss = lossNow();
      if (loss === null) return;
      stop = `${name} ${words[loss]}. Choose “Save a copy…” to keep what is in hand as a new file`;
    }
    throw new PlanningError("read-only", `Nothing more is taken: ${stop}.`);
  };
  /** Brings what is in hand into the file that was opened, wherever it is now, so that no log is left under its old name. */
  const settleLoss = (): void => {
    if (loss === null || loss === "changed") return;
    try {
      emptyLog();
    } catch {
      // What is in hand can still be saved; the log is dealt with when the ledger is closed.
    }
  };

  /** Cuts from the log what a refused step left in it. */
  const cutLog = (): void => {
    const head = Buffer.alloc(INDEX_BYTES);
    readSync(index, head, 0, INDEX_BYTES, 0);
    const isLittle = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;
    const [frames, size] = isLittle
      ? [head.readUInt32LE(FRAMES_AT), head.readUInt16LE(PAGE_SIZE_AT)]
      : [head.readUInt32BE(FRAMES_AT), head.readUInt16BE(PAGE_SIZE_AT)];
    const pageSize = size === 1 ? 65_536 : size;
    const length = frames === 0 ? 0 : LOG_HEADER + frames * (FRAME_HEADER + pageSize);
    if ((look(log)?.size ?? 0n) <= BigInt(length)) return;
    const file = openSync(log, "r+");
    try {
      ftruncateSync(file, length);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  };
  const undoLog = (error: unknown): void => {
    if (!isDiskFailure(error)) return;
    const code = error instanceof Sqlite.SqliteError ? error.code : "";
    try {
      cutLog();
      if (code !== "SQLITE_FULL")
        stop = `the disk failed (${code}). The refused step is not in the ledger. Check the disk, then open the ledger again`;
    } catch {
      stop = `the disk failed (${code}), and it cannot be said whether the refused step is in the ledger. Check the disk, open the ledger again and look`;
    }
  };

  /** Before the first edit of an opening: an empty log, and a mark in the file that no older copy has. */
  const markFile = (): void => {
    if (isMarked) return;
    if (!emptyLog()) return;
    db.sqlite
      .transaction(() => {
        renewMark(db);
      })
      .immediate();
    if (!emptyLog())
      throw new PlanningError("storage", "Another program is reading the ledger file. Wait a moment and try again.");
    remember();
    isMarked = true;
  };
  const tidy = (): void => {
    if ((look(log)?.size ?? 0n) < BigInt(LONG_LOG)) return;
    try {
      db.sqlite.pragma("busy_timeout = 0");
      emptyLog();
    } catch {
      // The step stands in the log; the next one tries again.
    } finally {
      db.sqlite.pragma("busy_timeout = 2000");
    }
  };

  return {
    stopped: () => stop,
    write: (action) => {
      try {
        refuseLoss();
      } catch (error) {
        settleLoss();
        throw error;
      }
      let result;
      try {
        markFile();
        result = db.sqlite
          .transaction(() => {
            if (isLogFresh) repeatMark(db);
            const value = action();
            refuseLoss();
            return value;
          })
          .immediate();
      } catch (error) {
        undoLog(error);
        settleLoss();
        throw error;
      }
      if (isLogEmptied) isLogFresh = false;
      tidy();
      remember();
      return result;
    },
    beforeClose: () => {
      if (stop === null) {
        loss = lossNow();
        if (loss !== null) settleLoss();
      }
      // What is in the log was never meant for what the file has become: emptied, it cannot be moved there.
      if (loss === "changed" && isSameFile(look(log), seenLog))
        try {
          const file = openSync(log, "r+");
          ftruncateSync(file, 0);
          closeSync(file);
        } catch {
          // Then its mark tells the next opening that it is another's.
        }
    },
    afterClose: () => {
      if (loss !== null && isSameFile(look(log), seenLog)) rmSync(log, { force: true });
      if (loss !== null && isSameFile(look(`${path}-shm`), seenIndex)) rmSync(`${path}-shm`, { force: true });
      closeSync(index);
    },
  };
};
