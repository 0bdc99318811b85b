/** The terminal of this process, as the command line writes on it. */
import type { Terminal } from "./run.ts";

export const processTerminal = (): Terminal => {
  // Whoever reads may have read enough (`… | head`): then there is nobody left to tell.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit();
  });
  return {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    isScreen: process.stderr.isTTY,
    onInterrupt: (listener) => {
      process.once("SIGINT", listener);
      return () => process.off("SIGINT", listener);
    },
  };
};
