/** Starts the service as a child of Node itself: for a desktop whose own Node is too old for the database module. */
import { fork } from "node:child_process";
import type { Child } from "./child.ts";
import type { FromService } from "./wire.ts";

/** `node`: path of a Node executable, 22 or newer. `log` takes what the service writes on its error output. */
export const startNodeChild = (node: string, program: string, log: (text: string) => void): Child => {
  const child = fork(program, [], {
    execPath: node,
    execArgv: [],
    // Structured clones: NaN and long lists cross as they are.
    serialization: "advanced",
    stdio: ["ignore", "ignore", "pipe", "ipc"],
  });
  child.stderr?.setEncoding("utf8").on("data", log);
  /** undefined: it lives. */
  let gone: number | null | undefined;
  let whenGone: ((code: number | null) => void) | null = null;
  const go = (code: number | null): void => {
    if (gone !== undefined) return;
    gone = code;
    whenGone?.(code);
  };
  child.once("exit", go);
  child.once("error", (error) => {
    log(`${error.message}\n`);
    go(null);
  });
  return {
    post: (message) => {
      // The exit is told by its own event; a message to a child that is just going is lost with it.
      if (child.connected) child.send(message, () => undefined);
    },
    onMessage: (listener) => child.on("message", (message) => listener(message as FromService)),
    onExit: (listener) => {
      if (gone === undefined) whenGone = listener;
      else listener(gone);
    },
    kill: () => child.kill("SIGKILL"),
  };
};
