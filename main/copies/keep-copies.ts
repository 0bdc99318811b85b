/** Keeps copies of ledgers in the program's data folder: one a day by itself, others by name, and finds them again. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import type { KeptCopies, KeptCopy } from "../../app/copies/kept-copy.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { copiesIn, copyFolder, dayPath, makeCopyFolder, pointPath, thinOut } from "./copy-folder.ts";

export interface CopyKeeper {
  /** The copies of the ledger at a path. */
  list(path: string): KeptCopies;
  /** Keeps the ledger as it is under a name. Throws "storage", "not a ledger". */
  keep(store: LedgerStore, name: string, at: number): Promise<KeptCopy>;
  /** A copy of the ledger at `path` and where it lies. Throws "not found". */
  find(path: string, copyId: string): { readonly copy: KeptCopy; readonly path: string };
  /** Makes the day's copy where it is due; never throws: why one failed is in {@link KeptCopies.fault}. */
  daily(store: LedgerStore, at: number): Promise<void>;
}

const sentence = (error: unknown): string =>
  error instanceof PlanningError
    ? error.message
    : `It could not be made: ${error instanceof Error ? error.message : String(error)}.`;

const isClosed = (store: LedgerStore): boolean => {
  try {
    store.header();
    return false;
  } catch {
    return true;
  }
};

/** How long after one that failed the day's copy is tried again. */
const RETRY_MS = 3_600_000;

/** `dataFolder`: asked each time it is needed; may throw "storage". `revisionOf`: of the ledger in a file. */
export const keepCopies = (dataFolder: () => string, revisionOf: (path: string) => number | null): CopyKeeper => {
  const faults = new Map<string, string>();
  /** Of each ledger, until when nothing is due: the copy is there, is being made, or has just failed. */
  const notBefore = new Map<string, number>();

  const folderOf = (path: string): string => copyFolder(dataFolder(), path);

  /** A copy that says the same as the newest would only push an older one out. */
  const isKept = (folder: string, revision: number): boolean => {
    const [newest] = copiesIn(folder).filter(({ kind }) => kind === "day");
    return newest !== undefined && revisionOf(join(folder, newest.id)) === revision;
  };

  const makeDaily = async (store: LedgerStore, path: string, at: number): Promise<void> => {
    const folder = folderOf(path);
    const target = dayPath(folder, at);
    if (existsSync(target) || isKept(folder, store.header().revision)) return;
    makeCopyFolder(folder);
    await store.backUp(target);
    thinOut(folder);
  };

  return {
    list: (path) => {
      const folder = folderOf(path);
      return { folder, copies: copiesIn(folder), fault: faults.get(path) ?? null };
    },
    keep: async (store, name, at) => {
      const { path } = store.header();
      const folder = folderOf(path);
      makeCopyFolder(folder);
      const target = pointPath(folder, at, name);
      await store.backUp(target);
      const made = copiesIn(folder).find(({ id }) => join(folder, id) === target);
      if (made === undefined)
        throw new PlanningError("storage", "The copy was made and has gone again. Keep it once more.");
      return made;
    },
    find: (path, copyId) => {
      const folder = folderOf(path);
      const copy = copiesIn(folder).find(({ id }) => id === copyId);
      if (copy === undefined) throw new PlanningError("not found", "There is no such copy any more.", "copyId");
      return { copy, path: join(folder, copy.id) };
    },
    daily: async (store, at) => {
      const { path, readOnlyBecause } = store.header();
      // A ledger that is only looked at is another program's to keep.
      if (readOnlyBecause !== null || at < (notBefore.get(path) ?? 0)) return;
      notBefore.set(path, (Math.floor(at / DAY_MS) + 1) * DAY_MS);
      try {
        await makeDaily(store, path, at);
        faults.delete(path);
      } catch (error) {
        if (isClosed(store)) {
          // The next opening makes it.
          notBefore.delete(path);
          return;
        }
        faults.set(path, sentence(error));
        notBefore.set(path, at + RETRY_MS);
      }
    },
  };
};
