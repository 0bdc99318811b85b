/**
 * Keeps answers that were computed from the ledger as long as the ledger stays as it is. Callers that ask for the same
 * thing share one computation; it is stopped when all of them have gone, or when the ledger has moved on.
 */
import { PlanningError } from "../../app/contract/failure.ts";
import type { Stamp } from "./session.ts";

interface Kept {
  readonly answer: Promise<unknown>;
  readonly stop: AbortController;
  waiting: number;
  isDone: boolean;
}

export interface RevisionCache {
  /** The answer under `key` at `stamp`, computed if it is not there. Rejects when `signal` stops this caller. */
  share<T>(stamp: Stamp, key: string, signal: AbortSignal, compute: (stop: AbortSignal) => Promise<T>): Promise<T>;
}

/** A promise that rejects as soon as the signal stops, and leaves no listener behind. */
const until = async <T>(answer: Promise<T>, signal: AbortSignal): Promise<T> => {
  signal.throwIfAborted();
  let leave = (): void => undefined;
  const stopped = new Promise<never>((_resolve, reject) => {
    const stop = (): void => reject(signal.reason as Error);
    signal.addEventListener("abort", stop, { once: true });
    leave = () => signal.removeEventListener("abort", stop);
  });
  try {
    return await Promise.race([answer, stopped]);
  } finally {
    leave();
  }
};

export const makeRevisionCache = (): RevisionCache => {
  let at: Stamp | null = null;
  const kept = new Map<string, Kept>();

  const moveTo = (stamp: Stamp): void => {
    if (at?.path === stamp.path && at.revision === stamp.revision) return;
    for (const entry of kept.values())
      if (!entry.isDone)
        entry.stop.abort(new PlanningError("cancelled", "The ledger changed while this was being computed."));
    kept.clear();
    at = stamp;
  };

  const begin = <T>(key: string, compute: (stop: AbortSignal) => Promise<T>): Kept => {
    const stop = new AbortController();
    const entry: Kept = { answer: until(compute(stop.signal), stop.signal), stop, waiting: 0, isDone: false };
    kept.set(key, entry);
    entry.answer.then(
      () => (entry.isDone = true),
      () => {
        entry.isDone = true;
        // A failure is not kept: the next caller tries again.
        if (kept.get(key) === entry) kept.delete(key);
      },
    );
    return entry;
  };

  return {
    share: async (stamp, key, signal, compute) => {
      moveTo(stamp);
      const entry = kept.get(key) ?? begin(key, compute);
      entry.waiting += 1;
      try {
        return (await until(entry.answer, signal)) as Awaited<ReturnType<typeof compute>>;
      } finally {
        entry.waiting -= 1;
        if (entry.waiting === 0 && !entry.isDone) {
          if (kept.get(key) === entry) kept.delete(key);
          entry.stop.abort(new PlanningError("cancelled", "Stopped before it was finished."));
        }
      }
    },
  };
};
