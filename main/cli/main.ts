#!/usr/bin/env node
/** The command line as a program: says which Node it needs before anything is loaded that an older one dies of. */
import { nodeRefusal } from "./node-version.ts";

const refusal = nodeRefusal(process.versions.node);
if (refusal === null) {
  const [{ processTerminal }, { runCommandLine }] = await Promise.all([
    import("./process-terminal.ts"),
    import("./run.ts"),
  ]);
  process.exitCode = await runCommandLine(process.argv.slice(2), processTerminal());
} else {
  console.error(refusal);
  process.exitCode = 2;
}
