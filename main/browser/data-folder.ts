/** Where the browser host keeps its ledgers, since a browser has no way to name a file. */
import { type Dirent, existsSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { LedgerChoice } from "../../app/contract/bridge.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { syncFolder } from "../../db/sync-folder.ts";
import { withStorage } from "../../db/storage-failure.ts";
import { freePath, LEDGER_ENDING, ledgerFileName } from "../page/ledger-name.ts";
import type { LedgerTokens } from "../page/ledger-tokens.ts";

const entriesOf = (folder: string): readonly Dirent[] => {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new PlanningError("storage", `The folder for ledgers, ${folder}, cannot be read (${why}).`);
  }
};

/** The ledgers in the folder, the latest first. Throws "storage". */
export const ledgersIn = (folder: string, tokens: LedgerTokens): readonly LedgerChoice[] =>
  entriesOf(folder)
    .filter((entry) => entry.isFile() && entry.name.endsWith(LEDGER_ENDING))
    .map((entry) => {
      const path = join(folder, entry.name);
      const modifiedAt = Math.round(statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0);
      return { token: tokens.tokenOf(path), name: entry.name, place: folder, modifiedAt };
    })
    .toSorted((a, b) => b.modifiedAt - a.modifiedAt);

/** A path in the folder for a new ledger of this name that takes no other's place. */
export const newLedgerPath = (folder: string, name: string): string => freePath(folder, ledgerFileName(name));

/** What SQLite puts beside a database. */
const COMPANIONS = ["-wal", "-shm", "-journal"];

/**
 * Puts an uploaded file into the folder; `keep` may refuse it by throwing, then it is taken away again, and what opening
 * it put beside it. Throws "storage" as what it is: a full disk, one that failed.
 */
export const storeUpload = async <T>(
  folder: string,
  name: string,
  bytes: Buffer,
  keep: (path: string) => Promise<T>,
): Promise<T> => {
  const path = newLedgerPath(folder, name);
  // The log of a ledger that was taken away by hand is not ours to remove.
  const own = [path, ...COMPANIONS.map((ending) => path + ending).filter((each) => !existsSync(each))];
  try {
    // What is taken stays when the power goes.
    withStorage(() => {
      writeFileSync(path, bytes, { flag: "wx", mode: 0o600, flush: true });
      syncFolder(folder);
    });
    return await keep(path);
  } catch (error) {
    for (const each of own) rmSync(each, { force: true });
    throw error;
  }
};
