/** What the loss model says was lost between two stated levels, beside what the books say. */
import { levelAfter, lossOver } from "../forecast/level.ts";
import { type LossRate, ratePieces } from "../forecast/loss-rate.ts";
import type { LossPeriod } from "../ledger/entity/loss-period.ts";
import type { EntryKind, Reading } from "../ledger/journal.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import type { TankMovement } from "../ledger/store.ts";

/** Entries that book the loss up to their instant; the others move mass. */
const statingKinds: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "reading", "closing"]);

export const isStating = (movement: Pick<TankMovement, "kind">): boolean => statingKinds.has(movement.kind);

/** One tank between two instants. */
export interface ModelledSpan {
  readonly lossKg: number;
  readonly levelKg: number;
}

/**
 * Loss by the model from `startKg` at `fromAt` to `untilAt`, with the mass that moved between (stating movements are left
 * out: what they book is what is predicted here). A draw of more than the model has leaves it empty.
 */
export const modelledLoss = (
  startKg: number,
  movements: readonly Pick<TankMovement, "at" | "kind" | "massKg">[],
  periods: readonly LossPeriod[],
  fromAt: number,
  untilAt: number,
  fallback?: LossRate,
): ModelledSpan => {
  let levelKg = startKg;
  let lossKg = 0;
  const moves = movements
    .filter((move) => !isStating(move) && move.at > fromAt && move.at <= untilAt)
    .toSorted((a, b) => a.at - b.at);
  let next = 0;
  for (const piece of ratePieces(periods, fromAt, untilAt, fallback)) {
    let at = piece.fromAt;
    const run = (toAt: number): void => {
      const days = (toAt - at) / DAY_MS;
      lossKg += lossOver(levelKg, piece.kPerDay, piece.cKgPerDay, 0, days);
      levelKg = levelAfter(levelKg, piece.kPerDay, piece.cKgPerDay, days);
      at = toAt;
    };
    for (let move = moves[next]; move !== undefined && move.at <= piece.untilAt; move = moves[next]) {
      run(move.at);
      levelKg = Math.max(0, levelKg + move.massKg);
      next += 1;
    }
    run(piece.untilAt);
  }
  return { lossKg, levelKg };
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
 * the tank's, in order of time, reaching back to the stated level before the period.
 */
export const compareLoss = (
  tankId: string,
  movements: readonly TankMovement[],
  periods: readonly LossPeriod[],
  readings: readonly Reading[],
  fromAt: number,
  untilAt: number,
): LossComparison | null => {
  const stating = movements.filter((move) => move.tankId === tankId && isStating(move) && move.at <= untilAt);
  const first = stating.findLast((move) => move.at <= fromAt) ?? stating.find((move) => move.kind === "opening");
  const last = stating.at(-1);
  if (first === undefined || last === undefined || last.at <= first.at) return null;
  const between = movements.filter((move) => move.tankId === tankId && move.at > first.at && move.at <= last.at);
  // The level with all that moved at that very instant: the last movement of the instant holds it.
  const startKg = movements.findLast((move) => move.tankId === tankId && move.at === first.at)?.bookKg ?? first.bookKg;
  const predictedKg = modelledLoss(startKg, between, periods, first.at, last.at).lossKg;
  const bookedKg = -between.filter(isStating).reduce((sum, move) => sum + move.massKg, 0);
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
