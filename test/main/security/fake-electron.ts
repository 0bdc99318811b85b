/** The few parts of Electron that the locks touch, played by plain objects that write down what is asked of them. */
import { vi } from "vitest";
import type { Session, WebContents } from "electron";

type Handler = (...given: never[]) => unknown;

/** A session that keeps the handlers it is given. */
export const fakeSession = () => {
  const handlers = new Map<string, Handler>();
  const keep = (name: string) => (handler: Handler) => handlers.set(name, handler);
  const session = {
    setPermissionRequestHandler: keep("request"),
    setPermissionCheckHandler: keep("check"),
    setDevicePermissionHandler: keep("device"),
    webRequest: { onBeforeRequest: keep("before request") },
  } as unknown as Session;
  return { session, handlers };
};

/** An app that makes web contents, and contents that keep what is attached to them. */
export const fakeContents = () => {
  const listeners = new Map<string, (event: { url: string; preventDefault: () => void }) => void>();
  let openHandler: (() => { action: string }) | undefined;
  const contents = {
    setWindowOpenHandler: (handler: () => { action: string }) => (openHandler = handler),
    on: (name: string, listener: (event: { url: string; preventDefault: () => void }) => void) =>
      listeners.set(name, listener),
  } as unknown as WebContents;
  /** Whether the event was prevented. */
  const tell = (name: string, url: string): boolean => {
    const preventDefault = vi.fn<() => void>();
    const listener = listeners.get(name);
    if (listener === undefined) throw new Error(`nobody listens to ${name}`);
    listener({ url, preventDefault });
    return preventDefault.mock.calls.length > 0;
  };
  return { contents, tell, openAnswer: () => openHandler?.() };
};
