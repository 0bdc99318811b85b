/** Denies the page what it never needs: permissions, devices, other addresses, other windows, embedded views, the network. */
import type { App, Session, WebContents, WebPreferences } from "electron";
import { isPageAddress, PAGE_HOST, SCHEME } from "./page-address.ts";

/** Written out in full, also where Electron's default is the same. */
export const webPreferences = (preload: string): WebPreferences => ({
  preload,
  sandbox: true,
  contextIsolation: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webviewTag: false,
  spellcheck: false,
});

/** Whether a request may be answered at all: our own files, and text that the page itself made (downloads). */
export const isOwnRequest = (address: string): boolean => {
  if (!URL.canParse(address)) return false;
  const url = new URL(address);
  if (url.protocol === `${SCHEME}:`) return url.host === PAGE_HOST;
  return url.protocol === "blob:" || url.protocol === "data:" || url.protocol === "devtools:";
};

export const lockSession = (session: Session): void => {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((request, answer) => answer({ cancel: !isOwnRequest(request.url) }));
};

const lockContents = (contents: WebContents): void => {
  contents.setWindowOpenHandler(() => ({ action: "deny" }));
  contents.on("will-attach-webview", (event) => event.preventDefault());
  // The page may load itself again, and nothing else.
  const refuse = (event: { readonly url: string; preventDefault(): void }): void => {
    if (!isPageAddress(event.url)) event.preventDefault();
  };
  contents.on("will-navigate", refuse);
  contents.on("will-redirect", refuse);
  contents.on("will-frame-navigate", refuse);
};

/** For every web content that ever comes to be. */
export const lockAllContents = (app: App): void => {
  app.on("web-contents-created", (_event, contents) => lockContents(contents));
};
