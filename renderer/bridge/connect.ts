/** Finds the host that this page runs in: the desktop's bridge if its preload put one there, else the browser host's. */
import type { Bridge } from "../../app/contract/bridge.ts";
import { browserBridge } from "./browser-bridge.ts";

declare global {
  interface Window {
    readonly coldstock?: Bridge;
  }
}

/** Call once, at start. */
export const connect = (): Bridge => window.coldstock ?? browserBridge();
