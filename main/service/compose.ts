/** Puts the service together as every host uses it: the ledger file of db, the system's clock, threads. */
import { join } from "node:path";
import { databaseFiles } from "./database-files.ts";
import { systemEnvironment } from "./environment.ts";
import { makeService, type Service } from "./service.ts";
import { threadPool } from "./work/thread-pool.ts";

/** From source the worker is beside us in work/; built, it is a program of its own in the same folder. */
const workerFile = (): string =>
  import.meta.filename.endsWith(".ts")
    ? join(import.meta.dirname, "work", "worker.ts")
    : join(import.meta.dirname, "worker.js");

/** `isLasting`: a thread for long computations stands ready; false for a command that does one thing and ends. */
export const composeService = (isLasting: boolean, log: (line: string) => void): Service =>
  makeService({
    environment: systemEnvironment(log),
    files: databaseFiles,
    runner: threadPool(workerFile(), isLasting),
  });
