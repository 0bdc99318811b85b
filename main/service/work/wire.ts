/** What passes between the service and one of its threads. */
import type { Failure } from "../../../app/ground/failure.ts";
import type { Progress } from "../../../app/work/working.ts";

export interface ToThread {
  readonly taskId: number;
  readonly name: string;
  /** Absent: the thread has it under the key. */
  readonly base: { readonly key: string | null; readonly value?: unknown };
  /** Keys that the thread need not keep any longer. */
  readonly forget: readonly string[];
  readonly asked: unknown;
  readonly part: unknown;
}

export type FromThread =
  | { readonly kind: "progress"; readonly taskId: number; readonly progress: Progress }
  /** `isLarge`: the thread holds much memory that nobody needs any longer. */
  | { readonly kind: "answer"; readonly taskId: number; readonly value: unknown; readonly isLarge: boolean }
  | { readonly kind: "failure"; readonly taskId: number; readonly failure: Failure }
  /** A fault of the program: its stack, for the log. */
  | { readonly kind: "defect"; readonly taskId: number; readonly stack: string };

/** Places in the flags that both sides share. */
export const FLAG = {
  /** The task that is to stop; 0: none. */
  stop: 0,
  /** 1: make way for interactive work until it is 0 again. */
  pause: 1,
} as const;
