/**
 * The test driver now and then waits for ever although the desktop program runs (seen in 5 of 60 starts, two at a time,
 * with Electron 33): such a start is given up and made anew, and that is said on the log.
 */
import { errors } from "@playwright/test";

/** How long each start may take until the driver is in, ms: one that does not hang takes two seconds, more on a busy machine. */
const STARTS_MS = [8_000, 20_000, 40_000] as const;

/** `start` must have ended what it started when it throws. Throws what the last start threw, or at once what is no time-out. */
export const startedAnew = async <T>(start: (timeoutMs: number) => Promise<T>): Promise<T> => {
  const [first, ...others] = STARTS_MS;
  let timeoutMs: number = first;
  for (const next of others) {
    try {
      return await start(timeoutMs);
    } catch (error) {
      if (!(error instanceof errors.TimeoutError)) throw error;
      console.warn(`the test driver did not come to the desktop program within ${timeoutMs / 1000} s; started anew`);
    }
    timeoutMs = next;
  }
  return await start(timeoutMs);
};
