/** What the desktop does for its page beside the contract: dialogs, recent ledgers, menu and theme. */
import { basename, dirname, join } from "node:path";
import type { BrowserWindow } from "electron";
import type { ActionState } from "../../app/contract/actions.ts";
import type { LedgerChoice } from "../../app/contract/bridge.ts";
import type { Reply } from "../../app/ground/failure.ts";
import type { HostMethod } from "../../app/contract/host-input.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import { type Demonstration, openDemonstration } from "../page/demonstration.ts";
import { type HostMethods, valueOf } from "../page/door.ts";
import { copyName, ledgerFileName } from "../page/ledger-name.ts";
import type { LedgerTokens } from "../page/ledger-tokens.ts";
import { readRowsFile } from "../page/rows-file.ts";
import { readTextFile } from "../page/text-file.ts";
import { writeOut } from "../page/write-out.ts";
import { copyPicture, copyText } from "./clipboard.ts";
import {
  pickLedgerPath,
  pickOtherPath,
  pickRowsPath,
  pickTextPath,
  placeFilePath,
  placeLedgerPath,
  placeTextPath,
} from "./dialogs.ts";
import type { DesktopState } from "./desktop-state.ts";
import { heldFileMethods } from "./held-files.ts";
import { printPage } from "./print-page.ts";

export interface DesktopParts {
  readonly tokens: LedgerTokens;
  readonly documentsFolder: string;
  readonly demonstrationFolder: string;
  window(): BrowserWindow;
  state(): DesktopState;
  call(name: string, input: object, jobId?: string): Promise<Reply<unknown>>;
  showActions(states: readonly ActionState[]): void;
  showTheme(theme: DesktopState["theme"]): void;
}

/** The dialog has asked. What was read is a ledger, and those are never written over. */
const AGREED = { mayReplace: true, from: null };

export const desktopMethods = (parts: DesktopParts): HostMethods<HostMethod> => {
  const ask = async (name: string, input: object): Promise<LedgerInfo> =>
    valueOf(await parts.call(name, input)) as LedgerInfo;
  const place = (name: string): Promise<string | null> =>
    placeLedgerPath(parts.window(), join(parts.documentsFolder, ledgerFileName(name)));

  return {
    ledgers: (): readonly LedgerChoice[] =>
      parts.state().recent.map(({ path, openedAt }) => ({
        token: parts.tokens.tokenOf(path),
        name: basename(path),
        place: dirname(path),
        modifiedAt: openedAt,
      })),
    openLedger: (token) => ask("ledger.open", { path: parts.tokens.pathOf(token) }),
    pickLedger: async () => {
      const path = await pickLedgerPath(parts.window());
      return path === null ? null : await ask("ledger.open", { path });
    },
    createLedger: async (programme, copyOf) => {
      const path = await place(programme);
      return path === null ? null : await ask("ledger.create", { path, programme, copyOf });
    },
    openDemonstration: async (which: Demonstration) =>
      valueOf(await openDemonstration(which, parts.demonstrationFolder, parts.call)),
    importLedger: async () => {
      const from = await pickTextPath(parts.window(), "json");
      if (from === null) return null;
      const text = readTextFile(from);
      const path = await place(basename(from));
      return path === null ? null : await ask("ledger.import", { path, text });
    },
    saveCopy: async () => {
      const ledger = await ask("ledger.info", {});
      const path = await place(copyName(ledger.fileName));
      if (path === null) return null;
      valueOf(await parts.call("ledger.copy", { path }));
      return basename(path);
    },
    ...heldFileMethods({
      tokens: parts.tokens,
      pick: () => pickOtherPath(parts.window()),
      place: (name) => place(name),
      call: parts.call,
    }),
    pickRows: async () => {
      const path = await pickRowsPath(parts.window());
      return path === null ? null : readRowsFile(path);
    },
    saveText: async (kind, suggestedName, text) => {
      const path = await placeTextPath(parts.window(), kind, join(parts.documentsFolder, suggestedName));
      if (path === null) return null;
      writeOut(path, text, AGREED);
      return basename(path);
    },
    saveFile: async (suggestedName, mediaType, base64) => {
      const path = await placeFilePath(parts.window(), mediaType, join(parts.documentsFolder, suggestedName));
      if (path === null) return null;
      writeOut(path, Buffer.from(base64, "base64"), AGREED);
      return basename(path);
    },
    print: () => printPage(parts.window().webContents),
    copyText,
    copyPicture,
    showActions: (states) => parts.showActions(states),
    showTheme: (theme) => parts.showTheme(theme),
  };
};
