/** Where the program of a worker thread lies. */
import { join } from "node:path";

/** From source it is beside this file; built, it is a program of its own in the folder of the bundle. */
export const workerFile = import.meta.filename.endsWith(".ts")
  ? join(import.meta.dirname, "worker.ts")
  : join(import.meta.dirname, "worker.js");
