/** The other site's ledger while it is looked at: uploaded, kept apart from the ledgers, and never opened to be written. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { HeldFile } from "../../app/contract/bridge.ts";
import { withStorage } from "../../db/storage-failure.ts";
import { LEDGER_ENDING, ledgerFileName } from "../page/ledger-name.ts";
import { makeLedgerTokens } from "../page/ledger-tokens.ts";
import { isRunning } from "./running-process.ts";

export interface OtherLedger {
  /** Keeps an upload; the one before goes. Throws "storage". */
  keep(name: string, bytes: Buffer): HeldFile;
  /** Throws "not found". */
  pathOf(token: string): string;
}

const FOLDER = "merging";

/** A file that does not fit leaves nothing. */
const writeWhole = (path: string, bytes: Buffer): string => {
  try {
    writeFileSync(path, bytes, { flag: "wx", mode: 0o600 });
    return path;
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  }
};

const foldersIn = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder);
  } catch {
    // Not there: nothing was ever uploaded.
    return [];
  }
};

/** Folders are named "process-…": one of a process that runs is another host's, and held. */
const isLeft = (name: string): boolean => {
  const process = Number(/^(\d+)-/.exec(name)?.[1]);
  return !Number.isInteger(process) || !isRunning(process);
};

/** In a folder of this host's own below the ledgers'; what hosts that have ended left there goes. */
export const otherLedger = (ledgerFolder: string): OtherLedger => {
  const folder = join(ledgerFolder, FOLDER);
  let tokens = makeLedgerTokens();
  let held: string | null = null;
  for (const name of foldersIn(folder)) if (isLeft(name)) rmSync(join(folder, name), { recursive: true, force: true });
  return {
    keep: (name, bytes) => {
      if (held !== null) rmSync(held, { recursive: true, force: true });
      tokens = makeLedgerTokens();
      const stem = ledgerFileName(name).slice(0, -LEDGER_ENDING.length);
      const fileName = `${stem}${/\.json$/iu.test(name) ? ".json" : LEDGER_ENDING}`;
      // A full disk is told as what it is.
      const path = withStorage(() => {
        mkdirSync(folder, { recursive: true, mode: 0o700 });
        // A folder for each upload: a name that comes twice is two files.
        held = mkdtempSync(join(folder, `${process.pid}-`));
        return writeWhole(join(held, fileName), bytes);
      });
      return { token: tokens.tokenOf(path), name: fileName };
    },
    pathOf: (token) => tokens.pathOf(token),
  };
};
