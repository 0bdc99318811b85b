/**
 * Makes the k-th system call of a kind fail that an action makes, within a process that runs under strace: strace fails
 * every so many-th call of each kind of each thread, and calls that do nothing bring the count to where it is wanted.
 */
import {
  closeSync,
  fdatasyncSync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  openSync,
  readSync,
  renameSync,
  unlinkSync,
  writeSync,
} from "node:fs";
import { join } from "node:path";

/**
 * Calls by which something comes onto a disk, by the names that strace has for them, and which of them fails: of each
 * more than twice as many as any action here makes, and more than are made from one beginning of the counts to the next.
 */
const periods = {
  pread64: 400,
  pwrite64: 400,
  write: 60,
  fsync: 60,
  fdatasync: 60,
  ftruncate: 60,
  rename: 60,
  link: 60,
  unlink: 60,
} as const;
export type CallKind = keyof typeof periods;
const kinds = Object.keys(periods) as readonly CallKind[];

/** Not every machine has the last three by these names. */
const named = (kind: CallKind): string => (["rename", "link", "unlink"].includes(kind) ? `?${kind}` : kind);

/**
 * What strace is told. `hasPlainWrites`: whether plain writing fails too. A thread that takes a file operation over tells
 * so by a plain write, and Node ends where that fails: only what has no such thread can stand it, and SQLite has no need.
 * `hasReads`: whether reading of SQLite fails; not where what goes before the action reads more than a whole count.
 */
export const failingArguments = (hasPlainWrites: boolean, hasReads: boolean): readonly string[] => {
  const failing = kinds.filter((kind) => (hasPlainWrites || kind !== "write") && (hasReads || kind !== "pread64"));
  return [
    "-e",
    `trace=${failing.map(named).join(",")}`,
    ...failing.flatMap((kind) => ["-e", `inject=${named(kind)}:error=EIO:when=${periods[kind]}+${periods[kind]}`]),
  ];
};

const isInjected = (error: unknown): boolean => (error as { code?: unknown }).code === "EIO";

export interface CountedCalls {
  readonly kinds: readonly CallKind[];
  /**
   * Does the action with its k-th call of this kind failing; whether it came to that call. Nothing else of the action
   * fails, and no call after it until the next.
   */
  failing<T>(
    kind: CallKind,
    k: number,
    action: () => Promise<T>,
  ): Promise<{ readonly value: T; readonly hasFailed: boolean }>;
  /** Does the action with none failing; how many calls of each kind it makes. */
  counted<T>(
    action: () => Promise<T>,
  ): Promise<{ readonly value: T; readonly made: Readonly<Partial<Record<CallKind, number>>> }>;
  /** Begins all counts anew, so that nothing fails for a while. */
  settle(): void;
  close(): void;
}

/** `folder`: for files that are nobody's. */
export const countCalls = (folder: string): CountedCalls => {
  const path = join(folder, "nothing");
  const file = openSync(path, "w+");
  const byte = Buffer.from("x");
  const idle: Readonly<Record<CallKind, () => void>> = {
    pread64: () => void readSync(file, byte, 0, 1, 0),
    pwrite64: () => void writeSync(file, byte, 0, 1, 0),
    write: () => void writeSync(file, byte, 0, 1, null),
    fsync: () => fsyncSync(file),
    fdatasync: () => fdatasyncSync(file),
    ftruncate: () => ftruncateSync(file, 0),
    rename: () => renameSync(path, path),
    link: () => linkSync(path, path),
    unlink: () => unlinkSync(join(folder, "none")),
  };
  /** Whether the call was made to fail; that it fails for its own reasons does not matter. */
  const call = (kind: CallKind): boolean => {
    try {
      idle[kind]();
      return false;
    } catch (error) {
      return isInjected(error);
    }
  };
  /** Calls up to the next that fails, which is the beginning of a new count; null: none of this kind ever fails here. */
  const toBeginning = (kind: CallKind): number | null => {
    for (let n = 1; n <= periods[kind]; n += 1) if (call(kind)) return n;
    return null;
  };
  const usable = kinds.filter((kind) => toBeginning(kind) !== null);
  const settle = (): void => {
    for (const each of usable) toBeginning(each);
  };
  return {
    kinds: usable,
    failing: async (kind, k, action) => {
      toBeginning(kind);
      for (let n = 0; n < periods[kind] - k; n += 1) call(kind);
      const value = await action();
      const left = toBeginning(kind) ?? 0;
      return { value, hasFailed: left > periods[kind] / 2 };
    },
    counted: async (action) => {
      settle();
      const value = await action();
      const made: Partial<Record<CallKind, number>> = {};
      for (const kind of usable) made[kind] = periods[kind] - (toBeginning(kind) ?? periods[kind]);
      return { value, made };
    },
    settle,
    close: () => closeSync(file),
  };
};
