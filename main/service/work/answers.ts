/**
 * Answers of questions, kept under a hash of exactly what they were computed from: an edit of something else keeps them,
 * an undo finds them again. All who ask the same share one computation, hear its progress, and see what is known so far;
 * it is stopped when the last of them has gone.
 */
import { type Progress, stopped } from "../../../app/work/working.ts";

type Tell = (progress: Progress) => void;

interface Entry {
  readonly answer: Promise<unknown>;
  readonly stop: AbortController;
  readonly listeners: Set<Tell>;
  latest: Progress | null;
  askers: number;
  isDone: boolean;
}

export interface Answers {
  /**
   * The answer under `key`, computed if it is not there. When `signal` stops the last who asks, the computation is asked
   * to stop and what it has is the answer; it is not kept. Who leaves while others wait is told "cancelled".
   */
  share<T>(
    key: string,
    signal: AbortSignal,
    tell: Tell,
    compute: (stop: AbortSignal, tell: Tell) => Promise<T>,
  ): Promise<T>;
}

/** Answers kept at a time, the latest asked for. */
const MAX_KEPT = 64;

const begin = (compute: (stop: AbortSignal, tell: Tell) => Promise<unknown>): Entry => {
  const stop = new AbortController();
  const listeners = new Set<Tell>();
  const tell: Tell = (progress) => {
    const partial = progress.partial ?? entry.latest?.partial;
    entry.latest = partial === undefined ? progress : { ...progress, partial };
    for (const listener of listeners) listener(progress);
  };
  const entry: Entry = {
    // Begun after this is whole, for a computation may tell at once.
    answer: Promise.resolve().then(() => compute(stop.signal, tell)),
    stop,
    listeners,
    latest: null,
    askers: 0,
    isDone: false,
  };
  return entry;
};

/** Whether the signal came before the answer. */
const stoppedFirst = async (answer: Promise<unknown>, signal: AbortSignal): Promise<boolean> => {
  if (signal.aborted) return true;
  const { promise, resolve } = Promise.withResolvers<true>();
  const hear = (): void => resolve(true);
  signal.addEventListener("abort", hear, { once: true });
  const isAnswered = (): false => false;
  try {
    return await Promise.race([answer.then(isAnswered, isAnswered), promise]);
  } finally {
    signal.removeEventListener("abort", hear);
  }
};

export const makeAnswers = (): Answers => {
  /** Oldest use first. */
  const kept = new Map<string, Entry>();

  const drop = (key: string, entry: Entry): void => {
    if (kept.get(key) === entry) kept.delete(key);
  };

  const keep = (key: string, entry: Entry): void => {
    kept.delete(key);
    kept.set(key, entry);
    for (const [oldest, other] of kept) {
      if (kept.size <= MAX_KEPT) break;
      // What is being computed is dropped by those who wait for it.
      if (other.isDone) kept.delete(oldest);
    }
  };

  const enter = (key: string, compute: Parameters<typeof begin>[0]): Entry => {
    const present = kept.get(key);
    const entry = present ?? begin(compute);
    keep(key, entry);
    if (present === undefined)
      entry.answer.then(
        () => (entry.isDone = true),
        () => {
          entry.isDone = true;
          // A failure is not kept: the next who asks tries again.
          drop(key, entry);
        },
      );
    return entry;
  };

  return {
    share: async <T>(
      key: string,
      signal: AbortSignal,
      tell: Tell,
      compute: (stop: AbortSignal, tell: Tell) => Promise<T>,
    ): Promise<T> => {
      if (signal.aborted) throw stopped();
      const entry = enter(key, compute);
      // Its own function, so that one listener given twice is two.
      const hear: Tell = (progress) => tell(progress);
      if (entry.latest !== null && !entry.isDone) tell(entry.latest);
      entry.listeners.add(hear);
      entry.askers += 1;
      let isLast = false;
      try {
        if (!(await stoppedFirst(entry.answer, signal))) return (await entry.answer) as T;
        isLast = entry.askers === 1;
      } finally {
        entry.askers -= 1;
        entry.listeners.delete(hear);
      }
      if (!isLast) throw stopped();
      drop(key, entry);
      entry.stop.abort();
      return (await entry.answer) as T;
    },
  };
};
