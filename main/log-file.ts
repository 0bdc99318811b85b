/** The log of a host and its service: one text file, put aside when it has grown, the one before it dropped. */
import { appendFileSync, mkdirSync, renameSync, statSync } from "node:fs";
import { dirname } from "node:path";

const MAX_BYTES = 1_000_000;

/** Writes text to the log; a log that cannot be written must not stop the program. */
export const logTo = (path: string): ((text: string) => void) => {
  try {
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
    if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) > MAX_BYTES) renameSync(path, `${path}.before`);
  } catch {
    // Said above.
  }
  return (text) => {
    try {
      appendFileSync(path, text.endsWith("\n") ? text : `${text}\n`, { mode: 0o600 });
    } catch {
      // Said above.
    }
  };
};
