/** Starts the service as Electron's utility process. */
import { utilityProcess } from "electron";
import type { Child } from "../service/link/child.ts";
import type { FromService } from "../service/link/wire.ts";

/** `log` takes what the service writes on its error output. */
export const startUtilityChild = (program: string, log: (text: string) => void): Child => {
  const child = utilityProcess.fork(program, [], {
    serviceName: "Coldstock ledger service",
    stdio: ["ignore", "ignore", "pipe"],
  });
  child.stderr?.on("data", (chunk: Buffer) => log(chunk.toString("utf8")));
  return {
    post: (message) => child.postMessage(message),
    onMessage: (listener) => child.on("message", (message: unknown) => listener(message as FromService)),
    onExit: (listener) => child.once("exit", (code) => listener(code)),
    kill: () => child.kill(),
  };
};
