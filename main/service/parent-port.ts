/** The service process's way to its host: Electron's parent port, or the channel of a Node child. */
import type { FromService, ToService } from "./link/wire.ts";

export interface ParentPort {
  post(message: FromService): void;
  onMessage(listener: (message: ToService) => void): void;
  /** The host has gone. */
  onGone(listener: () => void): void;
}

/** What Electron puts on `process` in a utility process. */
interface ElectronPort {
  postMessage(message: unknown): void;
  on(event: "message", listener: (event: { readonly data: unknown }) => void): void;
}

/** Throws if this process was started by hand. */
export const parentPort = (): ParentPort => {
  const electron = (process as { readonly parentPort?: ElectronPort }).parentPort;
  if (electron !== undefined)
    return {
      post: (message) => electron.postMessage(message),
      onMessage: (listener) => electron.on("message", (event) => listener(event.data as ToService)),
      // Electron ends its utility processes itself.
      onGone: () => undefined,
    };
  if (process.send === undefined) throw new Error("The ledger service is started by Coldstock, not by hand.");
  return {
    post: (message) => process.send?.(message, undefined, undefined, () => undefined),
    onMessage: (listener) => process.on("message", (message) => listener(message as ToService)),
    onGone: (listener) => process.on("disconnect", listener),
  };
};
