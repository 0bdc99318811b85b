/** What a handler works with. */
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Lane } from "../../app/contract/operation.ts";
import type { Progress } from "../../app/work/working.ts";
import type { CopyKeeper } from "../copies/keep-copies.ts";
import type { Environment } from "./environment.ts";
import type { LedgerFiles } from "./ledger-files.ts";
import type { OpenLedger } from "./open-ledger.ts";
import type { Answers } from "./work/answers.ts";
import type { WorkRunner } from "./work/runner.ts";

export interface Context {
  readonly environment: Environment;
  readonly files: LedgerFiles;
  readonly copies: CopyKeeper;
  readonly ledger: OpenLedger;
  readonly answers: Answers;
  readonly runner: WorkRunner;
  /** In which lane this call is worked on. */
  readonly lane: Lane;
  /** Stops when the caller cancels. */
  readonly signal: AbortSignal;
  readonly progress: (progress: Progress) => void;
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
