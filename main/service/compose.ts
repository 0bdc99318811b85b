/** Puts the service together as every host uses it: the ledger file of db, the system's clock, threads. */
import { revisionIn } from "../../db/read-only-copy.ts";
import { keepCopies } from "../copies/keep-copies.ts";
import { dataFolder } from "../page/program-folder.ts";
import { databaseFiles } from "./database-files.ts";
import { systemEnvironment } from "./environment.ts";
import { makeService, type Service } from "./service.ts";
import { threadPool } from "./work/thread-pool.ts";
import { workerFile } from "./work/worker-file.ts";

/** `isLasting`: a thread for long computations stands ready; false for a command that does one thing and ends, which makes the day's copy before it edits. */
export const composeService = (isLasting: boolean, log: (line: string) => void): Service =>
  makeService({
    environment: systemEnvironment(log),
    files: databaseFiles,
    copies: keepCopies(dataFolder, revisionIn),
    keepsDaily: isLasting ? "beside" : "before edits",
    runner: threadPool(workerFile, isLasting),
  });
