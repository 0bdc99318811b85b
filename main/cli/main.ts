#!/usr/bin/env node
/** The command line as a program. */
import { processTerminal } from "./process-terminal.ts";
import { runCommandLine } from "./run.ts";

process.exitCode = await runCommandLine(process.argv.slice(2), processTerminal());
