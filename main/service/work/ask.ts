/** Asks a long computation: found by the hash of what it is computed from, joined where it runs, else run in the threads. */
import type { Context } from "../context.ts";
import { digestOf } from "./digest.ts";
import { type AnswerOf, type AskedOf, type BaseOf, type WorkName, workOf } from "./works.ts";

const hashOf = (...parts: readonly unknown[]): string => digestOf(parts, { after: "\n", as: "base64url" });

/** Bases are asked about over and over as the same object: a plan as long as the ledger stays as it is. */
const baseKeys = new WeakMap<object, string>();

const baseKeyOf = (base: unknown): string | null => {
  if (typeof base !== "object" || base === null) return null;
  const known = baseKeys.get(base);
  if (known !== undefined) return known;
  const key = hashOf(base);
  baseKeys.set(base, key);
  return key;
};

/**
 * The answer of a computation over exactly `base` and `asked`; nothing else may have a part in it.
 */
export const ask = async <N extends WorkName>(
  { answers, runner, signal, progress, lane }: Context,
  name: N,
  base: BaseOf<N>,
  asked: AskedOf<N>,
): Promise<AnswerOf<N>> => {
  if (!workOf(name).isKept) return await runner.run({ name, base, baseKey: null, asked, lane }, signal, progress);
  const baseKey = baseKeyOf(base);
  return await answers.share(hashOf(name, baseKey, asked), signal, progress, (stop, tell) =>
    runner.run({ name, base, baseKey, asked, lane }, stop, tell),
  );
};
