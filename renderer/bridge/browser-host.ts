/** What the desktop does by dialogs, done in a browser: files come by upload, go by download, and live in the data folder. */
import type { Host, LedgerChoice, TextKind } from "../../app/contract/bridge.ts";
import type { Failure, Reply } from "../../app/contract/failure.ts";
import { MOST_TEXT } from "../../app/contract/host-input.ts";
import type { LedgerInfo } from "../../app/contract/ledger-view.ts";
import { copyPicture, copyText } from "./clipboard.ts";
import { download, pickFile } from "./file-picker.ts";
import { post, postFile } from "./post.ts";

const endings: Record<TextKind, { readonly accept: string; readonly type: string }> = {
  json: { accept: ".json,application/json", type: "application/json" },
  csv: { accept: ".csv,text/csv", type: "text/csv" },
};

const chosen = <T>(value: T): Reply<T> => ({ ok: true, value });
const refused = (failure: Failure): Reply<never> => ({ ok: false, failure });

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

const readText = async (kind: TextKind): ReturnType<Host["pickText"]> => {
  const file = await pickFile(endings[kind].accept);
  if (file === null) return chosen(null);
  if (file.size > MOST_TEXT)
    return refused({ code: "invalid input", message: `${file.name} is larger than 64 MB.`, field: null });
  try {
    // A fatal decoder: a file that is not UTF-8 is said to be so, not read with replacement characters.
    return chosen({
      fileName: file.name,
      text: new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer()),
    });
  } catch {
    return refused({ code: "invalid input", message: `${file.name} is not text in UTF-8.`, field: null });
  }
};

export const browserHost = (): Host =>
  Object.freeze({
    kind: "browser",
    platform: platform(),
    ledgers: () => post<readonly LedgerChoice[]>("/host/ledgers", []),
    openLedger: (token) => post<LedgerInfo>("/host/openLedger", [token]),
    pickLedger: () => upload(".coldstock", "/ledger-file"),
    createLedger: (programme) => post<LedgerInfo>("/host/createLedger", [programme]),
    openDemonstration: (which) => post<LedgerInfo>("/host/openDemonstration", [which]),
    importLedger: () => upload(endings.json.accept, "/ledger-document"),
    pickText: readText,
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
