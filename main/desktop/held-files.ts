/** Files that the desktop holds for its page by their paths: dropped on the window, or chosen to be merged. */
import { statSync } from "node:fs";
import { basename } from "node:path";
import type { HeldFile } from "../../app/contract/bridge.ts";
import { unreadWords, whatIsDropped } from "../../app/contract/dropped-file.ts";
import { PlanningError, type Reply } from "../../app/ground/failure.ts";
import type { HostMethod } from "../../app/contract/host-input.ts";
import { type HostMethods, valueOf } from "../page/door.ts";
import type { LedgerTokens } from "../page/ledger-tokens.ts";
import { readRowsFile } from "../page/rows-file.ts";
import { readTextFile } from "../page/text-file.ts";

type HeldMethod = Extract<
  HostMethod,
  "holdDropped" | "importHeld" | "readHeld" | "pickOther" | "previewMerge" | "takeMerge"
>;

interface HeldParts {
  readonly tokens: LedgerTokens;
  /** Asks for a ledger to merge; null: none was chosen. */
  pick(): Promise<string | null>;
  /** Asks where a new ledger is to be. */
  place(name: string): Promise<string | null>;
  call(name: string, input: object, jobId?: string): Promise<Reply<unknown>>;
}

/** Only what the page knows how to use is held; a link or a folder of such a name is not a file. */
const refuseOther = (path: string): void => {
  const name = basename(path);
  if (whatIsDropped(name) === null) throw new PlanningError("invalid input", unreadWords(name));
  if (statSync(path, { throwIfNoEntry: false })?.isFile() !== true)
    throw new PlanningError("storage", `${name} is not a file that can be read.`);
};

export const heldFileMethods = ({ tokens, pick, place, call }: HeldParts): HostMethods<HeldMethod> => {
  const held = (path: string): HeldFile => ({ token: tokens.tokenOf(path), name: basename(path) });
  return {
    holdDropped: (path) => {
      refuseOther(path);
      return held(path);
    },
    importHeld: async (token) => {
      const from = tokens.pathOf(token);
      const text = readTextFile(from);
      const path = await place(basename(from));
      return path === null ? null : valueOf(await call("ledger.import", { path, text }));
    },
    readHeld: (token) => readRowsFile(tokens.pathOf(token)),
    pickOther: async () => {
      const path = await pick();
      return path === null ? null : held(path);
    },
    previewMerge: async (token, choices, jobId) =>
      valueOf(await call("merge.preview", { path: tokens.pathOf(token), ...choices }, jobId)),
    takeMerge: async (token, choices, fingerprint) =>
      valueOf(await call("merge.take", { path: tokens.pathOf(token), ...choices, fingerprint })),
  };
};
