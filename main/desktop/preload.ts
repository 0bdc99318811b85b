/** The one thing that the page gets from outside: `window.coldstock`, the bridge. No Electron object crosses. */
import { contextBridge, ipcRenderer, webUtils } from "electron";
import type { Bridge, BridgeEventName, Host } from "../../app/contract/bridge.ts";
import type { HostInput, HostMethod } from "../../app/contract/host-input.ts";

type Listener = (payload: unknown) => void;

const listeners = new Map<BridgeEventName, Set<Listener>>();

ipcRenderer.on("event", (_event, name: BridgeEventName, payload: unknown) => {
  for (const listener of listeners.get(name) ?? []) listener(payload);
});

const on = (name: BridgeEventName, listener: Listener): (() => void) => {
  const those = listeners.get(name) ?? new Set<Listener>();
  listeners.set(name, those);
  // Its own function, so that one listener given twice is two.
  const hear: Listener = (payload) => listener(payload);
  those.add(hear);
  return () => {
    those.delete(hear);
  };
};

const ask =
  <M extends HostMethod>(method: M) =>
  (...input: HostInput<M>): Promise<never> =>
    ipcRenderer.invoke("host", method, input) as Promise<never>;

const tell =
  <M extends HostMethod>(method: M) =>
  (...input: HostInput<M>): void =>
    void ipcRenderer.invoke("host", method, input);

const platform = (): Host["platform"] => {
  if (process.platform === "darwin") return "mac";
  return process.platform === "win32" ? "windows" : "linux";
};

const host: Host = {
  kind: "desktop",
  platform: platform(),
  ledgers: ask("ledgers"),
  openLedger: ask("openLedger"),
  pickLedger: ask("pickLedger"),
  createLedger: ask("createLedger"),
  openDemonstration: ask("openDemonstration"),
  importLedger: ask("importLedger"),
  saveCopy: ask("saveCopy"),
  pickRows: ask("pickRows"),
  // The path is looked up here and goes to the host; the page handed over a file and gets a token.
  holdDropped: async (file) => await ask("holdDropped")(webUtils.getPathForFile(file as File)),
  importHeld: ask("importHeld"),
  readHeld: ask("readHeld"),
  pickOther: ask("pickOther"),
  previewMerge: ask("previewMerge"),
  takeMerge: ask("takeMerge"),
  saveText: ask("saveText"),
  saveFile: ask("saveFile"),
  print: ask("print"),
  copyText: ask("copyText"),
  copyPicture: ask("copyPicture"),
  showActions: tell("showActions"),
  showTheme: tell("showTheme"),
};

const bridge: Bridge = {
  call: ((name: string, input: unknown, jobId?: string) =>
    ipcRenderer.invoke("call", name, input, jobId)) as Bridge["call"],
  on: on as Bridge["on"],
  host,
};

// Copies and freezes.
contextBridge.exposeInMainWorld("coldstock", bridge);
