/** Sends events to the page; what is told before the page listens waits for it. */
import type { BrowserWindow } from "electron";
import type { BridgeEventName, BridgeEvents } from "../../app/contract/bridge.ts";

export interface PageEvents {
  tell<E extends BridgeEventName>(event: E, payload: BridgeEvents[E]): void;
  /** The page has asked its first question: it listens. */
  begin(): void;
  /** The page is being loaded (again): it does not listen. */
  pause(): void;
}

export const pageEvents = (window: () => BrowserWindow | null): PageEvents => {
  let isListening = false;
  let early: [BridgeEventName, unknown][] = [];
  const send = (event: BridgeEventName, payload: unknown): void => {
    const to = window();
    if (to !== null && !to.isDestroyed()) to.webContents.send("event", event, payload);
  };
  return {
    tell: (event, payload) => {
      if (isListening) send(event, payload);
      else if (event === "notice") early.push([event, payload]);
    },
    begin: () => {
      isListening = true;
      for (const [event, payload] of early) send(event, payload);
      early = [];
    },
    pause: () => {
      isListening = false;
    },
  };
};
