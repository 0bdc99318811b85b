/** The only place where the page's messages arrive: each is checked for who sent it before anything else happens. */
import type { BrowserWindow, IpcMain } from "electron";
import type { Reply } from "../../app/ground/failure.ts";
import { FORBIDDEN, isForbiddenToPages } from "../page/door.ts";
import { isPageAddress } from "./page-address.ts";

/** The part of Electron's event that the check needs. */
export interface Sent {
  readonly senderFrame: { readonly url: string } | null;
}

/** The page's own main frame, at the page's own address; not a frame within it, not one that is gone. */
export const isFromPage = (event: Sent, window: Pick<BrowserWindow, "isDestroyed" | "webContents"> | null): boolean => {
  if (window === null || window.isDestroyed()) return false;
  const frame = event.senderFrame;
  return frame !== null && frame === window.webContents.mainFrame && isPageAddress(frame.url);
};

export interface PageChannel {
  call(name: unknown, input: unknown, jobId: unknown): Promise<Reply<unknown>>;
  host(method: unknown, input: unknown): Promise<Reply<unknown>>;
}

export const listenToPage = (ipc: IpcMain, window: () => BrowserWindow | null, channel: PageChannel): void => {
  ipc.handle("call", (event, name: unknown, input: unknown, jobId: unknown) =>
    isFromPage(event, window()) && !isForbiddenToPages(name) ? channel.call(name, input, jobId) : FORBIDDEN,
  );
  ipc.handle("host", (event, method: unknown, input: unknown) =>
    isFromPage(event, window()) ? channel.host(method, input) : FORBIDDEN,
  );
};
