/** What a long computation is given beside its input: a way to tell how far it is, and to hear that it should stop. */
import { PlanningError } from "../ground/failure.ts";

/** How far a computation has come, and what is known so far. Plain data: it crosses threads and hosts. */
export interface Progress<P = unknown> {
  /** 0 to 1; null: cannot be said. */
  readonly share: number | null;
  /** What is being done, for a person: "Checking the supply". */
  readonly words: string;
  /** What has been done, counted: the rate is shown from it. */
  readonly done?: { readonly count: number; readonly unit: string };
  /** What is known so far, of the question's partial answer type; absent: nothing new. */
  readonly partial?: P;
}

export interface Working<P = never> {
  /**
   * Tells how far it is. Told ten times a second at most, the first at once; give a function where making the progress
   * takes time: it is called only when it is told.
   */
  tell(progress: Progress<P> | (() => Progress<P>)): void;
  /**
   * Whether nobody waits any more, or the person has pressed Stop. Ask often, every few milliseconds: it costs
   * nanoseconds, and a computation that has not ended 50 ms after it turned true is ended from outside, without an
   * answer. One that returns is answered with what it returns, so it must say of itself that it is not whole.
   */
  shouldStop(): boolean;
}

/** The computation that leads others: it runs beside the ledger, so it only hands out parts and adds up what comes back. */
export interface Leading<P, Part, Done> extends Working<P> {
  /** How many parts run at once. */
  readonly threads: number;
  /**
   * Runs the parts in the threads and gives their answers in the order of the parts; null: stopped before it was whole.
   * `onDone` hears each as it comes, in any order.
   */
  runParts(parts: readonly Part[], onDone?: (done: Done, place: number) => void): Promise<readonly (Done | null)[]>;
}

/** What a computation throws that has no answer to give when it is stopped. */
export const stopped = (): PlanningError => new PlanningError("cancelled", "Stopped before it was finished.");
