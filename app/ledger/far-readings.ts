/** Gauge readings that contradict the books: further off than their uncertainty and that of the level before can explain. */
import { levelBefore } from "../forecast/curve.ts";
import type { FarReading } from "../entity/plan.ts";
import type { LevelHistory, LevelSegment } from "../storage/segment.ts";
import type { Reading } from "./journal.ts";

/** A difference of more standard deviations than this is not chance: 1 in 16,000 if errors are normal. */
const FAR_SIGMAS = 4;

/** The level just before an instant; null: the books do not reach to it. Segments in order of time. */
const bookBefore = (segments: readonly LevelSegment[], at: number): number | null => {
  const [first] = segments;
  const last = segments.at(-1);
  if (first === undefined || last === undefined || at <= first.startAt || at > last.endAt) return null;
  return levelBefore(segments, at);
};

/**
 * Of each tank the last reading in force that lies more than 4 standard deviations from the level carried to its instant,
 * the deviation being that of the difference: of the reading and of the last booked one before it.
 */
export const farReadings = (past: readonly LevelHistory[], readings: readonly Reading[]): readonly FarReading[] => {
  const byTank = Map.groupBy(
    readings.filter(({ isWithdrawn }) => !isWithdrawn),
    ({ tankId }) => tankId,
  );
  return past.flatMap(({ tankId, segments }): readonly FarReading[] => {
    const own = (byTank.get(tankId) ?? []).toSorted((a, b) => a.at - b.at);
    let bookedSigmaKg = 0;
    let far: Omit<FarReading, "isLatest" | "others"> | null = null;
    let count = 0;
    for (const reading of own) {
      const bookKg = bookBefore(segments, reading.at);
      const sigmas = bookKg === null ? 0 : (reading.massKg - bookKg) / Math.hypot(reading.sigmaKg, bookedSigmaKg);
      if (bookKg !== null && Math.abs(sigmas) > FAR_SIGMAS) {
        far = { tankId, readingId: reading.id, at: reading.at, massKg: reading.massKg, bookKg, sigmas };
        count += 1;
      }
      if (reading.entryId !== null) bookedSigmaKg = reading.sigmaKg;
    }
    return far === null ? [] : [{ ...far, isLatest: far.readingId === own.at(-1)?.id, others: count - 1 }];
  });
};
