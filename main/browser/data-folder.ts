/** Where the browser host keeps its ledgers, since a browser has no way to name a file. */
import { readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { LedgerChoice } from "../../app/contract/bridge.ts";
import { withStorage } from "../../db/storage-failure.ts";
import { freePath, LEDGER_ENDING, ledgerFileName } from "../page/ledger-name.ts";
import type { LedgerTokens } from "../page/ledger-tokens.ts";

/** The ledgers in the folder, the latest first. */
export const ledgersIn = (folder: string, tokens: LedgerTokens): readonly LedgerChoice[] =>
  readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(LEDGER_ENDING))
    .map((entry) => {
      const path = join(folder, entry.name);
      const modifiedAt = Math.round(statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0);
      return { token: tokens.tokenOf(path), name: entry.name, place: folder, modifiedAt };
    })
    .toSorted((a, b) => b.modifiedAt - a.modifiedAt);

/** A path in the folder for a new ledger of this name that takes no other's place. */
export const newLedgerPath = (folder: string, name: string): string => freePath(folder, ledgerFileName(name));

/** Puts an uploaded file into the folder; `keep` may refuse it by throwing, then it is taken away again. */
export const storeUpload = async <T>(
  folder: string,
  name: string,
  bytes: Buffer,
  keep: (path: string) => Promise<T>,
): Promise<T> => {
  const path = newLedgerPath(folder, name);
  try {
    // A full disk is told as what it is, and what was written of the file goes.
    withStorage(() => writeFileSync(path, bytes, { flag: "wx", mode: 0o600 }));
    return await keep(path);
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  }
};
