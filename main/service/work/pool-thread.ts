/** One thread of the pool as the pool sees it: what it is doing, which bases it keeps, how it is stopped and how it ends. */
import { Worker } from "node:worker_threads";
import { FLAG, type FromThread, type ToThread } from "./wire.ts";

/** Bases that a thread keeps: the plan cases on screen and a few before them. */
const MAX_BASES = 6;

/** Room for what is made and kept within one task, such as a hundred thousand rows: a small nursery is cleared far too often. */
const NURSERY_MB = 16;

export interface PoolThread {
  holds(baseKey: string | null): boolean;
  /** Sends a task; the base goes along unless the thread has it. */
  send(task: Omit<ToThread, "base" | "forget">, baseKey: string | null, base: unknown): void;
  /** Asks the present task to stop. */
  askToStop(taskId: number): void;
  pause(isPaused: boolean): void;
  /** Ends it whatever it is doing. */
  end(): Promise<unknown>;
}

/** `onGone` hears why a thread ended that nobody ended: null where it does not say. */
export const startThread = (
  workerFile: string,
  onMessage: (message: FromThread) => void,
  onGone: (why: NodeJS.ErrnoException | null) => void,
): PoolThread => {
  const shared = new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT);
  const flags = new Int32Array(shared);
  const worker = new Worker(workerFile, {
    name: "work",
    workerData: shared,
    resourceLimits: { maxYoungGenerationSizeMb: NURSERY_MB },
  });
  /** Oldest use first. */
  const held = new Set<string>();
  let why: NodeJS.ErrnoException | null = null;
  worker.on("message", onMessage);
  worker.on("error", (error: NodeJS.ErrnoException) => {
    why = error;
  });
  worker.on("exit", () => onGone(why));
  // A process that has nothing else to do may end; whoever waits for an answer keeps it alive.
  worker.unref();
  return {
    holds: (key) => key !== null && held.has(key),
    send: (task, key, value) => {
      const isKnown = key !== null && held.delete(key);
      const forget: string[] = [];
      if (key !== null) {
        held.add(key);
        for (const oldest of held) {
          if (held.size <= MAX_BASES) break;
          held.delete(oldest);
          forget.push(oldest);
        }
      }
      const message: ToThread = { ...task, base: isKnown ? { key } : { key, value }, forget };
      worker.postMessage(message);
    },
    askToStop: (taskId) => {
      Atomics.store(flags, FLAG.stop, taskId);
      Atomics.notify(flags, FLAG.pause);
    },
    pause: (isPaused) => {
      if (Atomics.exchange(flags, FLAG.pause, isPaused ? 1 : 0) !== (isPaused ? 1 : 0))
        Atomics.notify(flags, FLAG.pause);
    },
    end: () => worker.terminate(),
  };
};
