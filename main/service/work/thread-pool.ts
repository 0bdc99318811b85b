/**
 * The threads that long computations run in. One thread more than the batch may use stands free for interactive work,
 * and batch work makes way while interactive work runs. A stopped task that does not end by itself in time is ended with
 * its thread, which is replaced; a task whose thread dies is run once more, and fails in words if that dies too.
 */
import { availableParallelism } from "node:os";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Lane } from "../../../app/contract/operation.ts";
import type { Progress } from "../../../app/work/working.ts";
import type { FindWork } from "./kind.ts";
import { type PoolThread, startThread } from "./pool-thread.ts";
import { abortError, runPart, type Task, type WorkRunner } from "./runner.ts";
import { telling } from "./telling.ts";
import type { FromThread } from "./wire.ts";
import { type AnswerOf, type WorkName, workOf } from "./works.ts";

/** More than this many threads gain nothing here. */
const MAX_THREADS = 8;
const MAX_WAITING = 256;
/** Within this a computation hears that it is to stop, or its thread is ended. */
const STOP_MS = 50;

interface Job {
  readonly taskId: number;
  readonly name: string;
  readonly lane: Lane;
  readonly baseKey: string | null;
  readonly base: unknown;
  readonly asked: unknown;
  readonly part: unknown;
  readonly tell: (progress: Progress) => void;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: Error) => void;
  isStopped: boolean;
  hasDied: boolean;
}

interface Seat {
  readonly thread: PoolThread;
  job: Job | null;
}

const diedWords = (why: NodeJS.ErrnoException | null): PlanningError =>
  why?.code === "ERR_WORKER_OUT_OF_MEMORY"
    ? new PlanningError(
        "refused",
        "This computation needs more memory than it may have, and was ended. Ask for less at once, or close other programs.",
      )
    : new PlanningError(
        "defect",
        "The computation broke down twice and has no answer. Nothing was changed; ask again, or restart Coldstock.",
      );

/** As many as cores less one, at least two. */
const batchThreads = (): number => Math.min(MAX_THREADS - 1, Math.max(2, availableParallelism() - 1));

/** `workerFile`: path of the thread's program (source or built). `isWarm`: one thread is started now, not at first need. */
export const threadPool = (workerFile: string, isWarm: boolean, find: FindWork = workOf): WorkRunner => {
  const mostBatch = batchThreads();
  const seats: Seat[] = [];
  const waiting: Record<Lane, Job[]> = { interactive: [], batch: [] };
  let isClosed = false;
  let lastTask = 0;

  const seatOf = (job: Job): Seat | undefined => seats.find((seat) => seat.job === job);
  const running = (lane: Lane): Seat[] => seats.filter((seat) => seat.job?.lane === lane);

  const addSeat = (): Seat => {
    const seat: Seat = {
      thread: startThread(
        workerFile,
        (message) => hear(seat, message),
        (why) => lose(seat, why),
      ),
      job: null,
    };
    seats.push(seat);
    return seat;
  };

  /** Batch work keeps the cores that interactive work and the ledger's own thread leave: on two cores, none. */
  const makeWay = (): void => {
    const left = Math.max(0, availableParallelism() - 1 - running("interactive").length);
    const isAlone = running("interactive").length === 0;
    for (const [index, seat] of running("batch").entries()) seat.thread.pause(!isAlone && index >= left);
    for (const seat of seats) if (seat.job?.lane !== "batch") seat.thread.pause(false);
  };

  const give = (seat: Seat, job: Job): void => {
    seat.job = job;
    const { taskId, name, asked, part } = job;
    try {
      seat.thread.send({ taskId, name, asked, part }, job.baseKey, job.base);
    } catch (error) {
      // What cannot be cloned is a fault of the program; the thread has not heard of it.
      seat.job = null;
      job.reject(error as Error);
    }
  };

  const freeSeat = (job: Job): Seat | null => {
    const free = seats.filter((seat) => seat.job === null);
    const holding = free.find((seat) => seat.thread.holds(job.baseKey));
    if (holding !== undefined) return holding;
    return free[0] ?? (seats.length <= mostBatch ? addSeat() : null);
  };

  const next = (): Job | undefined => {
    if (waiting.interactive.length > 0) return waiting.interactive[0];
    return running("batch").length < mostBatch ? waiting.batch[0] : undefined;
  };

  const goOn = (): void => {
    if (isClosed) return;
    for (let job = next(); job !== undefined; job = next()) {
      const seat = freeSeat(job);
      if (seat === null) break;
      waiting[job.lane].shift();
      give(seat, job);
    }
    // The next interactive work finds a thread that has started.
    if (isWarm && seats.length <= mostBatch && seats.every((seat) => seat.job !== null)) addSeat();
    makeWay();
  };

  const hear = (seat: Seat, message: FromThread): void => {
    const { job } = seat;
    if (job === null || job.taskId !== message.taskId) return;
    if (message.kind === "progress") {
      job.tell(message.progress);
      return;
    }
    seat.job = null;
    if (message.kind === "answer" && message.isLarge) retire(seat);
    if (message.kind === "answer") job.resolve(message.value);
    else if (message.kind === "failure")
      job.reject(new PlanningError(message.failure.code, message.failure.message, message.failure.field));
    else job.reject(Object.assign(new Error("in a thread"), { stack: message.stack }));
    goOn();
  };

  /** What it has grown to is given back at once: left idle, a thread never clears up. */
  const retire = (seat: Seat): void => {
    seats.splice(seats.indexOf(seat), 1);
    void seat.thread.end();
    if (isWarm) addSeat();
  };

  const lose = (seat: Seat, why: NodeJS.ErrnoException | null): void => {
    const index = seats.indexOf(seat);
    if (index >= 0) seats.splice(index, 1);
    const { job } = seat;
    seat.job = null;
    if (job !== null) {
      if (job.isStopped || isClosed) job.reject(abortError());
      else if (job.hasDied) job.reject(diedWords(why));
      else {
        job.hasDied = true;
        waiting[job.lane].unshift(job);
      }
    }
    if (!isClosed) goOn();
  };

  const stop = (job: Job): void => {
    job.isStopped = true;
    const line = waiting[job.lane];
    const index = line.indexOf(job);
    if (index >= 0) {
      line.splice(index, 1);
      job.reject(abortError());
      return;
    }
    const seat = seatOf(job);
    if (seat === undefined) return;
    seat.thread.askToStop(job.taskId);
    setTimeout(
      () => {
        if (seat.job === job) void seat.thread.end();
      },
      find(job.name).stopMs ?? STOP_MS,
    );
  };

  const runOne = async (
    task: Pick<Job, "name" | "lane" | "baseKey" | "base" | "asked" | "part" | "tell">,
    signal: AbortSignal,
  ): Promise<unknown> => {
    if (signal.aborted || isClosed) throw abortError();
    if (waiting[task.lane].length >= MAX_WAITING)
      throw new PlanningError(
        "refused",
        "Too much is being computed already. Wait until some of it is done, or stop it.",
      );
    const { promise, resolve, reject } = Promise.withResolvers<unknown>();
    const job: Job = { ...task, taskId: (lastTask += 1), resolve, reject, isStopped: false, hasDied: false };
    const onAbort = (): void => stop(job);
    signal.addEventListener("abort", onAbort, { once: true });
    waiting[job.lane].push(job);
    goOn();
    // The threads do not hold the process; what is waited for does.
    const held = setInterval(() => undefined, 60_000);
    try {
      return await promise;
    } finally {
      clearInterval(held);
      signal.removeEventListener("abort", onAbort);
    }
  };

  if (isWarm) addSeat();
  return {
    run: async <N extends WorkName>(task: Task<N>, signal: AbortSignal, tell: (progress: Progress) => void) => {
      const { lead } = find(task.name);
      if (lead === null) return (await runOne({ ...task, part: null, tell }, signal)) as AnswerOf<N>;
      if (signal.aborted) throw abortError();
      const threads = task.lane === "batch" ? mostBatch : Math.min(mostBatch, availableParallelism());
      const runParts = (parts: readonly unknown[], onDone?: (done: unknown, place: number) => void) =>
        inTurn(parts, threads, async (part, index) => {
          const done = await runPart(() => runOne({ ...task, part, tell: () => undefined }, signal));
          if (done !== null) onDone?.(done, index);
          return done;
        });
      const leading = {
        threads,
        tell: telling(tell, () => performance.now()),
        shouldStop: () => signal.aborted,
        runParts,
      };
      return (await lead(task.base, task.asked, leading)) as AnswerOf<N>;
    },
    close: async () => {
      isClosed = true;
      for (const job of [...waiting.interactive.splice(0), ...waiting.batch.splice(0)]) job.reject(abortError());
      await Promise.all(seats.map((seat) => seat.thread.end()));
    },
  };
};

/** Does all of them, so many at a time, so that other computations get their turn between two parts. */
const inTurn = async <P>(
  parts: readonly P[],
  atOnce: number,
  act: (part: P, place: number) => Promise<unknown>,
): Promise<readonly unknown[]> => {
  const answers: unknown[] = Array.from({ length: parts.length }, () => null);
  let begun = 0;
  const strand = async (): Promise<void> => {
    while (begun < parts.length) {
      const index = begun;
      begun += 1;
      try {
        // eslint-disable-next-line no-await-in-loop -- a strand does one after the other
        answers[index] = await act(parts[index] as P, index);
      } catch (error) {
        // One that fails fails all: nothing more is begun.
        begun = parts.length;
        throw error;
      }
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, parts.length) }, strand));
  return answers;
};
