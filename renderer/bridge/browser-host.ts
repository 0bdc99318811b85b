/** What the desktop does by dialogs, done in a browser: files come by upload, go by download, and live in the data folder. */
import type { Host, LedgerChoice, TextKind } from "../../app/contract/bridge.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { rowsEndings } from "../../app/exchange/rows/rows-source.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import { copyPicture, copyText } from "./clipboard.ts";
import { download, pickFile } from "./file-picker.ts";
import { heldFiles, rowsOfFile } from "./held-files.ts";
import { post, postFile } from "./post.ts";

const endings: Record<TextKind, { readonly accept: string; readonly type: string }> = {
  json: { accept: ".json,application/json", type: "application/json" },
  csv: { accept: ".csv,text/csv", type: "text/csv" },
};

const chosen = <T>(value: T): Reply<T> => ({ ok: true, value });

const platform = (): Host["platform"] => {
  const words = navigator.userAgent;
  if (words.includes("Mac OS")) return "mac";
  return words.includes("Windows") ? "windows" : "linux";
};

const upload = async (accept: string, address: string): Promise<Reply<LedgerInfo | null>> => {
  const file = await pickFile(accept);
  if (file === null) return chosen(null);
  return await postFile<LedgerInfo>(`${address}?name=${encodeURIComponent(file.name)}`, file);
};

const readRows = async (): ReturnType<Host["pickRows"]> => {
  const file = await pickFile(rowsEndings.map((ending) => `.${ending}`).join(","));
  if (file === null) return chosen(null);
  return await rowsOfFile(file);
};

export const browserHost = (): Host => {
  const { openHeld, ...held } = heldFiles();
  return Object.freeze({
    kind: "browser",
    platform: platform(),
    ledgers: () => post<readonly LedgerChoice[]>("/host/ledgers", []),
    openLedger: async (token) => (await openHeld(token)) ?? (await post<LedgerInfo>("/host/openLedger", [token])),
    pickLedger: () => upload(".coldstock", "/ledger-file"),
    createLedger: (programme, copyOf) =>
      post<LedgerInfo>("/host/createLedger", copyOf === undefined ? [programme] : [programme, copyOf]),
    openDemonstration: (which) => post<LedgerInfo>("/host/openDemonstration", [which]),
    importLedger: () => upload(endings.json.accept, "/ledger-document"),
    saveCopy: () => post<string>("/host/saveCopy", []),
    pickRows: readRows,
    ...held,
    saveText: async (kind, suggestedName, text) => {
      download(suggestedName, endings[kind].type, text);
      return await Promise.resolve(chosen(suggestedName));
    },
    saveFile: async (suggestedName, mediaType, base64) => {
      download(
        suggestedName,
        mediaType,
        Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)),
      );
      return await Promise.resolve(chosen(suggestedName));
    },
    print: async () => {
      // Comes back when the browser's dialog is closed, and does not say how.
      window.print();
      return await Promise.resolve(chosen(true));
    },
    copyText,
    copyPicture,
    showActions: () => undefined,
    showTheme: () => undefined,
  } satisfies Host);
};
