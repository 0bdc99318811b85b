/** What passes between the service and a worker thread. */
import type { MessagePort } from "node:worker_threads";
import type { Failure } from "../../../app/contract/failure.ts";

export interface WorkerQuestion {
  readonly name: string;
  readonly input: unknown;
  /** Takes progress: [share, words]. */
  readonly port: MessagePort;
}

export type WorkerAnswer = { readonly value: unknown } | { readonly failure: Failure };
