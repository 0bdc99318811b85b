/** The two kinds of long computation: one that runs in one thread, and one that is led over several. */
import type { Leading, Working } from "../../../app/work/working.ts";

declare const answerType: unique symbol;
declare const partialType: unique symbol;

/**
 * A computation as the runner sees it. `base`: the large part of the input that several questions share (a plan); a
 * thread keeps it by its hash, the same object each time, so that what is compiled from it may be kept in a WeakMap.
 * `asked`: the rest. Both are plain data.
 */
export interface Work<B, A, O, P> {
  /** Runs in a thread: the whole, or one part of it. */
  readonly compute: (base: B, asked: A, part: unknown, working: Working<P>) => unknown;
  /** Runs beside the ledger and leads the parts; null: it is in one piece. */
  readonly lead: ((base: B, asked: A, leading: Leading<P, unknown, unknown>) => Promise<O>) | null;
  /** Whether the answer may be kept: not bytes that are written once, nor what holds the hour at which it was made. */
  readonly isKept: boolean;
  /** So long it may take to bring what it has into an answer once it is to stop, ms; absent: hardly any time. */
  readonly stopMs?: number;
  readonly [answerType]?: O;
  readonly [partialType]?: P;
}

/** In one thread; the answer is kept. */
export const alone = <B, A, O, P = never>(
  run: (base: B, asked: A, working: Working<P>) => O | Promise<O>,
): Work<B, A, O, P> => ({
  compute: (base, asked, _part, working) => run(base, asked, working),
  lead: null,
  isKept: true,
});

/** In one thread, for the one who asks; nothing is kept of it. */
export const once = <A, O, P = never>(run: (asked: A, working: Working<P>) => O | Promise<O>): Work<null, A, O, P> => ({
  ...alone<null, A, O, P>((_base, asked, working) => run(asked, working)),
  isKept: false,
});

/**
 * Over several threads: `lead` decides what the parts are, runs them (in rounds if it likes) and adds them up. A part
 * that is stopped before it is whole throws {@link ../../../app/work/working.ts stopped}.
 */
export const spread = <B, A, O, P, Part, Done>(of: {
  readonly part: (base: B, asked: A, part: Part, working: Working) => Done | Promise<Done>;
  readonly lead: (base: B, asked: A, leading: Leading<P, Part, Done>) => Promise<O>;
}): Work<B, A, O, P> => ({
  compute: (base, asked, part, working) => of.part(base, asked, part as Part, working),
  isKept: true,
  lead: (base, asked, leading) => of.lead(base, asked, leading as unknown as Leading<P, Part, Done>),
});

/** Gives a computation by its name, whatever its types. */
export type FindWork = (name: string) => Work<unknown, unknown, unknown, unknown>;
