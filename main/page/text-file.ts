/** Files that a person chose: text read with a limit, text and bytes written whole or not at all. */
import { readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import { PlanningError } from "../../app/contract/failure.ts";
import { MOST_TEXT } from "../../app/contract/host-input.ts";

const because = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Throws "storage" where it cannot be read, "invalid input" where it is too large or not UTF-8. */
export const readTextFile = (path: string): string => {
  const name = basename(path);
  let bytes: Uint8Array;
  try {
    if (statSync(path).size > MOST_TEXT) throw new PlanningError("invalid input", `${name} is larger than 64 MB.`);
    bytes = readFileSync(path);
  } catch (error) {
    if (error instanceof PlanningError) throw error;
    throw new PlanningError("storage", `${name} cannot be read: ${because(error)}.`);
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new PlanningError("invalid input", `${name} is not text in UTF-8.`);
  }
};

const removeQuietly = (path: string): void => {
  try {
    rmSync(path, { force: true });
  } catch {
    // It was not ours (a folder of that name): why the writing failed is what the person must hear.
  }
};

/** Throws "storage"; what was there before then stays. */
export const writeTextFile = (path: string, text: string): void => writeBinaryFile(path, text);

/** The same for bytes: written beside, synced, and put in place whole. Throws "storage". */
export const writeBinaryFile = (path: string, content: string | Uint8Array): void => {
  const beside = `${path}.part`;
  try {
    writeFileSync(beside, content, { flush: true });
    renameSync(beside, path);
  } catch (error) {
    removeQuietly(beside);
    throw new PlanningError("storage", `${basename(path)} cannot be written: ${because(error)}.`);
  }
};
