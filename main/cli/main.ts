#!/usr/bin/env node
/** The command line as a program. */
import { runCommandLine, type Terminal } from "./run.ts";

const terminal: Terminal = {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isScreen: process.stderr.isTTY,
  onInterrupt: (listener) => {
    process.once("SIGINT", listener);
    return () => process.off("SIGINT", listener);
  },
};

// Whoever reads may have read enough (`… | head`): then there is nobody left to tell.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

process.exitCode = await runCommandLine(process.argv.slice(2), terminal);
