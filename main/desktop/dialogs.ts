/** The native dialogs. Paths are chosen here and stay in this process; null: closed without choosing. */
import { existsSync } from "node:fs";
import { basename } from "node:path";
import { type BrowserWindow, dialog } from "electron";
import type { TextKind } from "../../app/contract/bridge.ts";
import { rowsEndings } from "../../app/exchange/rows/rows-source.ts";
import { type FileType, fileTypes } from "../../app/ground/file-types.ts";

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

const mayReplace = async (window: BrowserWindow, path: string): Promise<boolean> => {
  const { response } = await dialog.showMessageBox(window, {
    type: "question",
    message: `There is a file ${basename(path)} already.`,
    detail: "Its content goes for good if it is replaced.",
    buttons: ["Keep file", "Replace file"],
    defaultId: 0,
    cancelId: 0,
  });
  return response === 1;
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

/** A place for a file that may take another's place, if the person says so. */
const placeOver = async (...asked: Parameters<typeof place>): Promise<string | null> => {
  const path = await place(...asked);
  // The dialogs of Windows and macOS ask by themselves, those of Linux differ among each other.
  if (path === null || process.platform !== "linux" || !existsSync(path)) return path;
  return (await mayReplace(asked[0], path)) ? path : null;
};

export const pickLedgerPath = (window: BrowserWindow): Promise<string | null> =>
  pick(window, "Open a ledger", ledgerFilter);

/** Another ledger to be looked at: a file, or a document exported from it. */
export const pickOtherPath = (window: BrowserWindow): Promise<string | null> =>
  pick(window, "Choose the other site's ledger", {
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
  placeOver(window, "Save as", suggested, { name: fileTypes[type].words, extensions: [fileTypes[type].ending] });

export const placeTextPath = (window: BrowserWindow, kind: TextKind, suggested: string): Promise<string | null> =>
  placeOver(window, "Save as", suggested, textFilters[kind]);
