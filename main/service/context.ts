/** What a handler works with. */
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Environment } from "./environment.ts";
import type { LedgerFiles } from "./ledger-files.ts";
import type { Progress } from "./pool/task.ts";
import type { TaskRunner } from "./pool/runner.ts";
import type { RevisionCache } from "./revision-cache.ts";
import type { Session } from "./session.ts";

export interface Context {
  readonly environment: Environment;
  readonly files: LedgerFiles;
  readonly session: Session;
  readonly cache: RevisionCache;
  readonly runner: TaskRunner;
  /** Stops when the caller cancels. */
  readonly signal: AbortSignal;
  readonly progress: Progress;
  /** Stops the running call of this job id; whether there was one. */
  readonly cancel: (jobId: string) => boolean;
}

/**
 * Commands never wait between reading the ledger and writing it, so none comes between: one call, one transaction. A
 * promise is for a long computation, or for loading code before the ledger is read.
 */
export type Handler<N extends OperationName> = (input: Input<N>, context: Context) => Output<N> | Promise<Output<N>>;

/** Some of the handlers; together the groups must make up the whole contract. */
export type HandlersOf<N extends OperationName> = { readonly [K in N]: Handler<K> };
