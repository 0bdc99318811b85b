/** Puts the service together as every host uses it: the ledger file of db, the system's clock, threads. */
import { databaseFiles } from "./database-files.ts";
import { systemEnvironment } from "./environment.ts";
import { makeService, type Service } from "./service.ts";
import { threadPool } from "./work/thread-pool.ts";
import { workerFile } from "./work/worker-file.ts";

/** `isLasting`: a thread for long computations stands ready; false for a command that does one thing and ends. */
export const composeService = (isLasting: boolean, log: (line: string) => void): Service =>
  makeService({
    environment: systemEnvironment(log),
    files: databaseFiles,
    runner: threadPool(workerFile, isLasting),
  });
