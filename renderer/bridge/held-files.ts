/** Files that a browser's page holds itself: dropped on the window, or chosen to be merged. Sent when they are needed. */
import type { HeldFile, Host } from "../../app/contract/bridge.ts";
import type { Failure, Reply } from "../../app/ground/failure.ts";
import { MAX_ROWS_FILE, tooLargeWords } from "../../app/exchange/rows/rows-source.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { MergeView } from "../../app/merge/merge-view.ts";
import { pickFile } from "./file-picker.ts";
import { post, postFile } from "./post.ts";

type HeldMethods = Pick<Host, "holdDropped" | "importHeld" | "readHeld" | "pickOther" | "previewMerge" | "takeMerge">;

const chosen = <T>(value: T): Reply<T> => ({ ok: true, value });
const refused = (code: Failure["code"], message: string): Reply<never> => ({
  ok: false,
  failure: { code, message, field: null },
});
const GONE = refused("not found", "This file is no longer held. Drop or choose it again.");

const base64Of = async (file: Blob): Promise<string> =>
  await new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener("load", () => resolve((reader.result as string).replace(/^[^,]*,/, "")));
    reader.addEventListener("error", () => reject(reader.error ?? new Error("not read")));
    reader.readAsDataURL(file);
  });

/** A file of rows with its bytes; one that is too large is not read. */
export const rowsOfFile = async (file: File): ReturnType<Host["readHeld"]> => {
  if (file.size > MAX_ROWS_FILE) return refused("invalid input", tooLargeWords(file.name, file.size));
  try {
    return chosen({ fileName: file.name, base64: await base64Of(file) });
  } catch {
    return refused("storage", `${file.name} cannot be read.`);
  }
};

export interface HeldFiles extends HeldMethods {
  /** Uploads a held ledger and opens it; null: nothing of this token is held. */
  openHeld(token: string): Promise<Reply<LedgerInfo> | null>;
}

export const heldFiles = (): HeldFiles => {
  const files = new Map<string, File>();
  /** The host's own token of what was uploaded to be merged, by ours. */
  const sent = new Map<string, string>();
  const hold = (file: File): HeldFile => {
    const token = crypto.randomUUID();
    files.set(token, file);
    return { token, name: file.name };
  };
  const upload = async (token: string, address: string): Promise<Reply<LedgerInfo> | null> => {
    const file = files.get(token);
    if (file === undefined) return null;
    return await postFile<LedgerInfo>(`${address}?name=${encodeURIComponent(file.name)}`, file);
  };
  const send = async (token: string): Promise<Reply<string>> => {
    const known = sent.get(token);
    if (known !== undefined) return chosen(known);
    const file = files.get(token);
    if (file === undefined) return GONE;
    const reply = await postFile<HeldFile>(`/other-ledger?name=${encodeURIComponent(file.name)}`, file);
    if (!reply.ok) return reply;
    // The host keeps one at a time.
    sent.clear();
    sent.set(token, reply.value.token);
    return chosen(reply.value.token);
  };
  return {
    holdDropped: async (file) => await Promise.resolve(chosen(hold(file as File))),
    openHeld: (token) => upload(token, "/ledger-file"),
    importHeld: async (token) => (await upload(token, "/ledger-document")) ?? GONE,
    readHeld: async (token) => {
      const file = files.get(token);
      return file === undefined ? GONE : await rowsOfFile(file);
    },
    pickOther: async () => {
      const file = await pickFile(".coldstock,.json,application/json");
      return chosen(file === null ? null : hold(file));
    },
    previewMerge: async (token, choices, jobId) => {
      const other = await send(token);
      return other.ok ? await post<MergeView>("/host/previewMerge", [other.value, choices, jobId]) : other;
    },
    takeMerge: async (token, choices, fingerprint) => {
      const other = await send(token);
      return other.ok ? await post<LedgerInfo>("/host/takeMerge", [other.value, choices, fingerprint]) : other;
    },
  };
};
