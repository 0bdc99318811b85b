/** The native dialogs. Paths are chosen here and stay in this process; null: closed without choosing. */
import { type BrowserWindow, dialog } from "electron";
import type { TextKind } from "../../app/contract/bridge.ts";
import { rowsEndings } from "../../app/exchange/rows/rows-source.ts";
import { type FileType, fileTypes } from "../../app/contract/file-types.ts";

const ledgerFilter = { name: "Coldstock ledger", extensions: ["coldstock"] };
const everything = { name: "All files", extensions: ["*"] };
const textFilters: Readonly<Record<TextKind, { name: string; extensions: string[] }>> = {
  json: { name: "Exported ledger (JSON)", extensions: ["json"] },
  csv: { name: "Rows (CSV)", extensions: ["csv"] },
};

const pick = async (window: BrowserWindow, title: string, filter: typeof everything): Promise<string | null> => {
  const answer = await dialog.showOpenDialog(window, {
    title,
    filters: [filter, everything],
    properties: ["openFile"],
  });
  return answer.canceled ? null : (answer.filePaths[0] ?? null);
};

const place = async (
  window: BrowserWindow,
  title: string,
  defaultPath: string,
  filter: typeof everything,
): Promise<string | null> => {
  const answer = await dialog.showSaveDialog(window, { title, defaultPath, filters: [filter] });
  return answer.canceled || answer.filePath === "" ? null : answer.filePath;
};

export const pickLedgerPath = (window: BrowserWindow): Promise<string | null> =>
  pick(window, "Open a ledger", ledgerFilter);

/** Another ledger to be looked at: a file, or a document exported from it. */
export const pickOtherPath = (window: BrowserWindow): Promise<string | null> =>
  pick(window, "Choose the other desk's ledger", {
    name: "Ledger or exported ledger",
    extensions: ["coldstock", "json"],
  });

export const placeLedgerPath = (window: BrowserWindow, suggested: string): Promise<string | null> =>
  place(window, "Where is the new ledger to be?", suggested, ledgerFilter);

export const pickTextPath = (window: BrowserWindow, kind: TextKind): Promise<string | null> =>
  pick(window, "Choose a file", textFilters[kind]);

export const pickRowsPath = (window: BrowserWindow): Promise<string | null> =>
  pick(window, "Choose a file of rows", { name: "Rows (tables, workbooks, calendars)", extensions: [...rowsEndings] });

export const placeFilePath = (window: BrowserWindow, type: FileType, suggested: string): Promise<string | null> =>
  place(window, "Save as", suggested, { name: fileTypes[type].words, extensions: [fileTypes[type].ending] });

export const placeTextPath = (window: BrowserWindow, kind: TextKind, suggested: string): Promise<string | null> =>
  place(window, "Save as", suggested, textFilters[kind]);
