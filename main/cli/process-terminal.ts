/** The terminal of this process, as the command line writes on it. */
import { readFileSync } from "node:fs";
import { PlanningError } from "../../app/ground/failure.ts";
import type { Terminal } from "./run.ts";

const STANDARD_INPUT = 0;

export const processTerminal = (): Terminal => {
  // Whoever reads may have read enough (`… | head`): then there is nobody left to tell.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit();
  });
  return {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    input: () => {
      if (process.stdin.isTTY)
        throw new PlanningError(
          "invalid input",
          "Nothing comes on the standard input: pipe a file into it, or name the file.",
        );
      return readFileSync(STANDARD_INPUT);
    },
    isScreen: process.stderr.isTTY,
    onInterrupt: (listener) => {
      process.once("SIGINT", listener);
      return () => process.off("SIGINT", listener);
    },
  };
};
