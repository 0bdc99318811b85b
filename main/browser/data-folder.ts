/** Where the browser host keeps its ledgers, since a browser has no way to name a file. */
import { mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import type { LedgerChoice } from "../../app/contract/bridge.ts";
import { freePath, LEDGER_ENDING, ledgerFileName } from "../page/ledger-name.ts";
import type { LedgerTokens } from "../page/ledger-tokens.ts";

const usual = (): string => {
  const home = homedir();
  switch (process.platform) {
    case "win32":
      return join(process.env["APPDATA"] ?? join(home, "AppData", "Roaming"), "Coldstock");
    case "darwin":
      return join(home, "Library", "Application Support", "Coldstock");
    default:
      return join(process.env["XDG_DATA_HOME"] ?? join(home, ".local", "share"), "coldstock");
  }
};

/** `COLDSTOCK_HOME`, or the place that the system has for a program's data. Made if it is not there. */
export const dataFolder = (): string => {
  const named = process.env["COLDSTOCK_HOME"];
  const folder = named === undefined || named === "" ? usual() : named;
  mkdirSync(folder, { recursive: true });
  return folder;
};

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
  writeFileSync(path, bytes, { flag: "wx" });
  try {
    return await keep(path);
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  }
};
