/**
 * The test driver now and then waits for ever although the desktop program runs (seen in 5 of 60 starts, two at a time,
 * with Electron 33): such a start is given up and made anew, and that is said on the log.
 */
import { errors } from "@playwright/test";

/** How long one start may take until the driver is in, ms. */
export const START_MS = 20_000;
const STARTS = 3;

/** `start` must have ended what it started when it throws. Throws what the last of three starts threw, or at once what is no time-out. */
export const startedAnew = async <T>(start: () => Promise<T>): Promise<T> => {
  for (let attempt = 1; attempt < STARTS; attempt++) {
    try {
      return await start();
    } catch (error) {
      if (!(error instanceof errors.TimeoutError)) throw error;
      console.warn(`the test driver did not come to the desktop program within ${START_MS / 1000} s; started anew`);
    }
  }
  return await start();
};
