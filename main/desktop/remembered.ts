/** Holds the desktop's state while it runs, and writes it a moment after it changed. */
import { type DesktopState, readState, writeState } from "./desktop-state.ts";

const SETTLE_MS = 500;

export interface Remembered {
  state(): DesktopState;
  change(next: DesktopState): void;
  /** Writes at once what is not yet written. */
  flush(): void;
}

export const remembered = (path: string, log: (text: string) => void): Remembered => {
  let state = readState(path);
  let timer: NodeJS.Timeout | null = null;
  const flush = (): void => {
    if (timer === null) return;
    clearTimeout(timer);
    timer = null;
    try {
      writeState(path, state);
    } catch (error) {
      // The place of a window is not worth a question to the person.
      log(`The window's state was not written: ${String(error)}`);
    }
  };
  return {
    state: () => state,
    change: (next) => {
      state = next;
      timer ??= setTimeout(flush, SETTLE_MS);
    },
    flush,
  };
};
