/** The SHA-256 of plain data as typed JSON, made piece by piece: the text of a hundred thousand rows is never whole in memory. */
import { type BinaryToTextEncoding, createHash, type Hash } from "node:crypto";
import { toTypedJson } from "../../../app/contract/typed-json.ts";

/** Entries of a list that become text at once. */
const AT_ONCE = 256;

/** How far down lists are looked for: whatever lies deeper is small. */
const DEEPEST = 6;

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);

const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !isList(value) && !ArrayBuffer.isView(value) && !("$array" in value);

const feedList = (hash: Hash, list: readonly unknown[], depth: number): void => {
  hash.update("[");
  for (let from = 0; from < list.length; from += AT_ONCE) {
    const some = list.slice(from, from + AT_ONCE);
    if (from > 0) hash.update(",");
    if (list.length > AT_ONCE) hash.update(toTypedJson(some).slice(1, -1));
    else
      some.forEach((entry, index) => {
        if (index > 0) hash.update(",");
        feed(hash, entry ?? null, depth + 1);
      });
  }
  hash.update("]");
};

const feedGroup = (hash: Hash, group: Readonly<Record<string, unknown>>, depth: number): void => {
  hash.update("{");
  let isFirst = true;
  for (const [key, value] of Object.entries(group)) {
    if (value === undefined) continue;
    hash.update(`${isFirst ? "" : ","}${JSON.stringify(key)}:`);
    feed(hash, value, depth + 1);
    isFirst = false;
  }
  hash.update("}");
};

const feed = (hash: Hash, value: unknown, depth: number): void => {
  if (depth >= DEEPEST) hash.update(toTypedJson(value));
  else if (isList(value)) feedList(hash, value, depth);
  else if (isGroup(value)) feedGroup(hash, value, depth);
  else hash.update(toTypedJson(value));
};

/**
 * The digest of the typed JSON of each part, each followed by `after`. Plain data alone: no functions, no dates. Throws
 * where a number is not finite.
 */
export const digestOf = (
  parts: readonly unknown[],
  { after, as }: { readonly after: string; readonly as: BinaryToTextEncoding },
): string => {
  const hash = createHash("sha256");
  for (const part of parts) {
    feed(hash, part ?? null, 0);
    hash.update(after);
  }
  return hash.digest(as);
};
