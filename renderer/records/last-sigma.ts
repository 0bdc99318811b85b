/** The uncertainty of a tank's gauge, as far as its last reading tells. */
import type { Reading } from "../../app/ledger/journal.ts";

/** kg; null: it has no reading in force. */
export const lastSigma = (readings: readonly Reading[], tankId: string): number | null => {
  let last: Reading | null = null;
  for (const reading of readings)
    if (reading.tankId === tankId && !reading.isWithdrawn && (last === null || reading.at >= last.at)) last = reading;
  return last?.sigmaKg ?? null;
};
