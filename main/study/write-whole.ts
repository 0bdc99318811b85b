/** A file whole or not at all, also on a shared disk, with several writers, and when the disk is full. */
import { randomBytes } from "node:crypto";
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { syncFolder } from "../../db/sync-folder.ts";
import { PlanningError } from "../../app/ground/failure.ts";

/** Ending of what is not whole yet. */
export const UNFINISHED = ".part";

const FULL: ReadonlySet<unknown> = new Set(["ENOSPC", "EDQUOT", "EFBIG"]);

const saying = (path: string, error: unknown): PlanningError => {
  if (error instanceof PlanningError) return error;
  const { code, message } = error as NodeJS.ErrnoException;
  return new PlanningError(
    "storage",
    FULL.has(code)
      ? `The disk is full: ${basename(path)} could not be written. What is whole stays; make room, and go on with the same command.`
      : `${basename(path)} could not be written: ${message}. What is whole stays; go on with the same command once it can be.`,
    "folder",
  );
};

export interface WholeFile {
  write(text: string): void;
  /** From now on it is there under its name. */
  keep(): void;
  /** Leaves nothing behind; may be called after all. */
  drop(): void;
}

/** Begins a file beside its place, under a name that no other writer has. Throws "storage". */
export const beginWhole = (path: string): WholeFile => {
  const aside = join(
    dirname(path),
    `.${basename(path)}.${hostname()}-${process.pid}-${randomBytes(4).toString("hex")}${UNFINISHED}`,
  );
  const guarded = <T>(act: () => T): T => {
    try {
      return act();
    } catch (error) {
      throw saying(path, error);
    }
  };
  let handle: number | null = guarded(() => openSync(aside, "wx", 0o666));
  const close = (): void => {
    if (handle !== null) closeSync(handle);
    handle = null;
  };
  const into = (): number => {
    if (handle === null) throw new Error("written after its end");
    return handle;
  };
  return {
    write: (text) =>
      guarded(() => {
        const bytes = Buffer.from(text);
        for (let done = 0; done < bytes.length;) done += writeSync(into(), bytes, done);
      }),
    keep: () =>
      guarded(() => {
        fsyncSync(into());
        close();
        renameSync(aside, path);
        syncFolder(dirname(path));
      }),
    drop: () => {
      try {
        close();
        rmSync(aside, { force: true });
      } catch {
        // What was wrong with the disk has been said.
      }
    },
  };
};

/** Writes the parts one after the other. Throws "storage"; then nothing is there. */
export const writeWhole = (path: string, parts: Iterable<string>): void => {
  const file = beginWhole(path);
  try {
    for (const part of parts) file.write(part);
    file.keep();
  } finally {
    file.drop();
  }
};
