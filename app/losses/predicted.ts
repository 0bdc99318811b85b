/** What the loss model says was lost between two stated levels, beside what the books say. */
import { type TankLosses, carryForward, isBooking } from "../ledger/carry-forward.ts";
import type { Reading } from "../ledger/journal.ts";
import { levelAfter } from "../storage/level.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { TankMovement } from "../ledger/books.ts";

/**
 * Loss by the model from `startKg` at `fromAt` to `untilAt`, kg, with the mass that moved after `fromAt`. What stating
 * movements book is what is predicted here, so they are passed over.
 */
export const modelledLoss = (
  startKg: number,
  movements: readonly TankMovement[],
  losses: TankLosses,
  fromAt: number,
  untilAt: number,
): number => {
  const moves = movements.filter((move) => !isBooking(move) && move.at > fromAt && move.at <= untilAt);
  const { segments } = carryForward({ at: fromAt, massKg: startKg }, moves, losses, untilAt);
  return segments.reduce((sum, { m0Kg, kPerDay, cKgPerDay, startAt, endAt }) => {
    const endKg = levelAfter(m0Kg, kPerDay, cKgPerDay, (endAt - startAt) / DAY_MS);
    return sum + m0Kg - endKg;
  }, 0);
};

/** One tank and period: booked and predicted loss over the span that the bookings of the period cover. */
export interface LossComparison {
  readonly tankId: string;
  /** From the last stated level at or before the period to the last one in it. */
  readonly coversFromAt: number;
  readonly coversUntilAt: number;
  readonly predictedKg: number;
  /** Boil-off and unaccounted together: what went, whatever it was called. */
  readonly bookedKg: number;
  /** booked − predicted. */
  readonly differenceKg: number;
  /** Of the two levels together, kg; null: one of them was not read from a gauge. */
  readonly sigmaKg: number | null;
  /** The difference in units of sigma; null without one. */
  readonly differenceInSigma: number | null;
}

const sigmaAt = (readings: readonly Reading[], tankId: string, at: number): number | null =>
  readings.find(
    (reading) => !reading.isWithdrawn && reading.entryId !== null && reading.tankId === tankId && reading.at === at,
  )?.sigmaKg ?? null;

/**
 * Booked beside predicted for one tank in (fromAt, untilAt]; null where no two stated levels bound a span. `movements` are
 * the tank's own, in order of time, reaching back to the stated level before the period.
 */
export const compareLoss = (
  tankId: string,
  movements: readonly TankMovement[],
  losses: TankLosses,
  readings: readonly Reading[],
  fromAt: number,
  untilAt: number,
): LossComparison | null => {
  const stating = movements.filter((move) => isBooking(move) && move.at <= untilAt);
  const first = stating.findLast((move) => move.at <= fromAt) ?? stating[0];
  const last = stating.at(-1);
  if (first === undefined || last === undefined || last.at <= first.at) return null;
  // The level with all that moved at that very instant: the last movement of the instant holds it.
  const startKg = movements.findLast((move) => move.at === first.at)?.bookKg ?? first.bookKg;
  const between = movements.filter((move) => move.at > first.at && move.at <= last.at);
  const predictedKg = modelledLoss(startKg, between, losses, first.at, last.at);
  const bookedKg = -between.filter(isBooking).reduce((sum, move) => sum + move.massKg, 0);
  const startSigma = sigmaAt(readings, tankId, first.at);
  const endSigma = sigmaAt(readings, tankId, last.at);
  const sigmaKg = startSigma === null || endSigma === null ? null : Math.hypot(startSigma, endSigma);
  const differenceKg = bookedKg - predictedKg;
  return {
    tankId,
    coversFromAt: first.at,
    coversUntilAt: last.at,
    predictedKg,
    bookedKg,
    differenceKg,
    sigmaKg,
    differenceInSigma: sigmaKg === null ? null : differenceKg / sigmaKg,
  };
};
