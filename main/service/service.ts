/** The service: owns the open ledger, answers calls, tells of changes and progress. Every host stands on it. */
import { z } from "zod";
import type { BridgeEvents } from "../../app/contract/bridge.ts";
import { contract, type Input, type OperationName, type Output } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/ground/failure.ts";
import type { CopyKeeper } from "../copies/keep-copies.ts";
import type { Context } from "./context.ts";
import { dispatch, isOperation } from "./dispatch.ts";
import { editsLedger } from "../../app/contract/edits.ts";
import type { Environment } from "./environment.ts";
import type { LedgerFiles } from "./ledger-files.ts";
import { makeOpenLedger, type Stamp } from "./open-ledger.ts";
import { makeAnswers } from "./work/answers.ts";
import type { WorkRunner } from "./work/runner.ts";

/** What the service tells by itself; the hosts add the rest of the bridge's events. */
export type ServiceEvents = Pick<BridgeEvents, "changed" | "progress">;
export type ServiceEvent = {
  readonly [E in keyof ServiceEvents]: { event: E; payload: ServiceEvents[E] };
}[keyof ServiceEvents];

export interface Service {
  /** For input from outside: anything at all. */
  dispatch(name: unknown, rawInput: unknown, jobId?: unknown): Promise<Reply<unknown>>;
  /** The same for callers that know the types. */
  call<N extends OperationName>(name: N, input: Input<N>, jobId?: string): Promise<Reply<Output<N>>>;
  /** Listens to all events; the answer stops listening. */
  listen(listener: (event: ServiceEvent) => void): () => void;
  /** Which state of which file is open; null: none. */
  stamp(): Stamp | null;
  /** Stops what runs, closes the file. */
  close(): Promise<void>;
}

const jobIdOf = (raw: unknown): string | null => {
  const parsed = z.string().min(1).max(80).safeParse(raw);
  return parsed.success ? parsed.data : null;
};

/** Who asks: what stands before the number of the call; null: it does not say. */
const askerOf = (jobId: string): string | null => {
  const end = jobId.lastIndexOf("#");
  return end > 0 ? jobId.slice(0, end) : null;
};

const badJobId: Reply<never> = {
  ok: false,
  failure: { code: "invalid input", message: "A job id is a text of 1 to 80 characters not in use.", field: "jobId" },
};

interface ServiceParts {
  readonly environment: Environment;
  readonly files: LedgerFiles;
  readonly copies: CopyKeeper;
  readonly runner: WorkRunner;
  /**
   * When a copy of the ledger is made on each day on which it changes: beside the work once it is open, or before the
   * first edit, which waits for it (who does one thing and ends has no later); absent: never.
   */
  readonly keepsDaily?: "beside" | "before edits";
}

export const makeService = (parts: ServiceParts): Service => {
  const ledger = makeOpenLedger();
  const answers = makeAnswers();
  const listeners = new Set<(event: ServiceEvent) => void>();
  const running = new Map<string, AbortController>();
  let told: Stamp | null = null;

  const tell = (event: ServiceEvent): void => {
    for (const listener of listeners) listener(event);
  };
  /** Looks only after what may change something. */
  const tellIfChanged = (after: unknown): void => {
    if (!isOperation(after) || contract[after].kind !== "command") return;
    try {
      const now = ledger.stamp();
      if (now === null || (now.path === told?.path && now.revision === told.revision)) return;
      told = now;
      tell({ event: "changed", payload: { revision: now.revision, path: now.path } });
    } catch (error) {
      // The answer is already decided; a file that cannot be read now will say so at the next call.
      parts.environment.logDefect("telling of a change", error);
    }
  };
  /** After what may have opened or changed a ledger; in the background, between other calls. */
  const keepDaily = (after: unknown): void => {
    if (parts.keepsDaily !== "beside" || !isOperation(after) || contract[after].kind !== "command") return;
    // A file that was spoiled under the program ends no call that was answered, and not the service.
    const fail = (error: unknown): void => void parts.environment.logDefect("keeping a daily copy", error);
    try {
      if (ledger.stamp() !== null) void parts.copies.daily(ledger.store(), parts.environment.now()).catch(fail);
    } catch (error) {
      fail(error);
    }
  };
  /** The state before an edit. That no copy can be made stops no edit: `copies.list` says why. */
  const keepBefore = async (name: unknown): Promise<void> => {
    if (parts.keepsDaily !== "before edits" || !isOperation(name) || !editsLedger(name)) return;
    try {
      if (ledger.stamp() !== null) await parts.copies.daily(ledger.store(), parts.environment.now());
    } catch (error) {
      parts.environment.logDefect("keeping a daily copy", error);
    }
  };
  const contextOf = (jobId: string | null, stop: AbortController): Context => ({
    ...parts,
    ledger,
    answers,
    lane: "interactive",
    signal: stop.signal,
    progress: (progress) => {
      if (jobId !== null) tell({ event: "progress", payload: { ...progress, jobId } });
    },
    cancel: (other) => {
      const job = running.get(other);
      job?.abort();
      return job !== undefined;
    },
  });

  /** What the same asker asked before is of no more use. */
  const supersede = (jobId: string): void => {
    const asker = askerOf(jobId);
    if (asker === null) return;
    for (const [other, call] of running) if (askerOf(other) === asker) call.abort();
  };

  /** undefined: it cannot be read now. */
  const stampNow = (): Stamp | null | undefined => {
    try {
      return ledger.stamp();
    } catch {
      return undefined;
    }
  };
  /** A step that was written, and whose answer then could not be made, must not be told as one that was not. */
  const truly = (reply: Reply<unknown>, before: Stamp | null | undefined): Reply<unknown> => {
    if (reply.ok || before === null) return reply;
    const now = stampNow();
    const isRead = now !== undefined && before !== undefined && now !== null;
    if (isRead && now.path === before.path && now.revision === before.revision) return reply;
    const words = isRead
      ? "The step was written, but the answer to it could not be made."
      : "And it cannot be said whether the step was written: open the ledger again and look.";
    const message = isRead ? `${words} ${reply.failure.message}` : `${reply.failure.message} ${words}`;
    return { ok: false, failure: { ...reply.failure, message } };
  };

  const answer = async (name: unknown, rawInput: unknown, rawJobId?: unknown): Promise<Reply<unknown>> => {
    const jobId = rawJobId === undefined || rawJobId === null ? null : jobIdOf(rawJobId);
    if (rawJobId !== undefined && rawJobId !== null && (jobId === null || running.has(jobId))) return badJobId;
    const stop = new AbortController();
    if (jobId !== null) {
      supersede(jobId);
      running.set(jobId, stop);
    }
    try {
      await keepBefore(name);
      const isEdit = isOperation(name) && editsLedger(name);
      const before = isEdit ? stampNow() : null;
      return truly(await dispatch(name, rawInput, contextOf(jobId, stop)), before);
    } finally {
      if (jobId !== null) running.delete(jobId);
      tellIfChanged(name);
      keepDaily(name);
    }
  };

  return {
    dispatch: answer,
    call: async <N extends OperationName>(name: N, input: Input<N>, jobId?: string) =>
      (await answer(name, input, jobId)) as Reply<Output<N>>,
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    stamp: () => ledger.stamp(),
    close: async () => {
      for (const job of running.values()) job.abort();
      await parts.runner.close();
      ledger.close();
    },
  };
};
