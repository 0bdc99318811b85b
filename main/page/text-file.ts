/** A text file that a person chose, read with a limit. What leaves the program is written by write-out.ts. */
import { readFileSync, statSync } from "node:fs";
import { basename } from "node:path";
import { PlanningError } from "../../app/ground/failure.ts";
import { MAX_TEXT } from "../../app/contract/host-input.ts";

const because = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Bytes as text; `name` is what people call them. Throws "invalid input" where they are too many or not UTF-8. */
export const textOf = (name: string, bytes: Uint8Array): string => {
  if (bytes.length > MAX_TEXT) throw new PlanningError("invalid input", `${name} is larger than 64 MB.`);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new PlanningError("invalid input", `${name} is not text in UTF-8.`);
  }
};

/** Throws "storage" where it cannot be read, "invalid input" where it is too large or not UTF-8. */
export const readTextFile = (path: string): string => {
  const name = basename(path);
  let bytes: Uint8Array;
  try {
    if (statSync(path).size > MAX_TEXT) throw new PlanningError("invalid input", `${name} is larger than 64 MB.`);
    bytes = readFileSync(path);
  } catch (error) {
    if (error instanceof PlanningError) throw error;
    throw new PlanningError("storage", `${name} cannot be read: ${because(error)}.`);
  }
  return textOf(name, bytes);
};
