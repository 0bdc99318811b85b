/** How one command or query is declared: its kind, the schema of its input, the type of its answer, a line of help. */
import type { z } from "zod";

declare const answerType: unique symbol;

/** Carries the answer's type; nothing at run time. */
export interface Answer<T> {
  readonly [answerType]?: T;
}

export interface Operation<S extends z.ZodType = z.ZodType, T = unknown> {
  /** A query changes nothing; a command may be undone or says why not; a job takes long, reports progress, can be stopped. */
  readonly kind: "query" | "command" | "job";
  readonly summary: string;
  readonly input: S;
  readonly answer: Answer<T>;
}

/** Declares the answer's type: `answer: gives<Report>()`. */
export const gives = <T>(): Answer<T> => ({});

const declare =
  (kind: Operation["kind"]) =>
  <S extends z.ZodType, T>(summary: string, input: S, answer: Answer<T>): Operation<S, T> => ({
    kind,
    summary,
    input,
    answer,
  });

export const query = declare("query");
export const command = declare("command");
export const job = declare("job");
