/** How one command, query or question is declared: its kind, the schema of its input, the type of its answer, a line of help. */
import type { z } from "zod";

declare const answerType: unique symbol;

/** Carries the answer's type; nothing at run time. */
export interface Answer<T> {
  readonly [answerType]?: T;
}

/** Interactive work is what somebody looks at the screen for; it waits for no batch. */
export type Lane = "interactive" | "batch";

/** A query changes nothing and answers at once; a command may be undone or says why not; a question takes time. */
export interface Operation<S extends z.ZodType = z.ZodType, T = unknown> {
  readonly kind: "query" | "command" | "question";
  readonly summary: string;
  readonly input: S;
  readonly answer: Answer<T>;
}

/**
 * A question changes nothing and takes time: it tells how far it is and what is known so far, can be stopped, is computed
 * once for all who ask, and its answer is kept as long as what it was computed from is the same, whatever else changes.
 */
export interface Question<S extends z.ZodType = z.ZodType, T = unknown, P = unknown> extends Operation<S, T> {
  readonly kind: "question";
  /** Of what is known so far. */
  readonly partial: Answer<P>;
  readonly lane: Lane | ((input: z.infer<S>) => Lane);
}

/** Declares the answer's type: `answer: gives<Report>()`. */
export const gives = <T>(): Answer<T> => ({});

const declare =
  (kind: "query" | "command") =>
  <S extends z.ZodType, T>(summary: string, input: S, answer: Answer<T>): Operation<S, T> => ({
    kind,
    summary,
    input,
    answer,
  });

export const query = declare("query");
export const command = declare("command");

/** Interactive and without a partial answer, unless said otherwise. */
export const question = <S extends z.ZodType, T, P = never>(
  summary: string,
  input: S,
  answer: Answer<T>,
  more: {
    readonly partial?: Answer<P>;
    readonly lane?: Question<S>["lane"];
  } = {},
): Question<S, T, P> => ({
  kind: "question",
  summary,
  input,
  answer,
  partial: more.partial ?? {},
  lane: more.lane ?? "interactive",
});

/** In which lane this input of an operation is worked on; what is no question is waited for. */
export const laneOf = (operation: Operation, input: unknown): Lane => {
  if (operation.kind !== "question") return "interactive";
  const { lane } = operation as Question;
  return typeof lane === "function" ? lane(input) : lane;
};
