/** Where the rate that a fit is after was in force, and where another was: outages, seasons, a rate adopted from a date. */
import { PlanningError } from "../../ground/failure.ts";
import { type LossRate, type RatePiece, ratePieces } from "../../storage/loss-rate.ts";
import type { LossPeriod } from "../../entity/loss-period.ts";
import type { Span } from "./observations.ts";

export interface RateStretches {
  /** Of the fitted rate, from the loss model: what is held, and where the fit starts. */
  readonly rate: LossRate;
  /** Why that rate is believed. */
  readonly reason: string;
  readonly stretches: readonly Span[];
  /** Between and around them, with why another rate was in force. */
  readonly apart: readonly (Span & { readonly reason: string })[];
}

const NO_PERIOD = "no period";
const reasonOf = ({ period }: RatePiece): string => period?.reason ?? NO_PERIOD;

/** Periods of one and the same rate are one, whatever they are called: a season that comes again. */
const isAlike = (a: LossRate, b: LossRate): boolean => a.kPerDay === b.kPerDay && a.cKgPerDay === b.cKgPerDay;

/**
 * The rate is that in force up to the last reading, `lastAt`: a fit tells of the past. `periods` are those of the tank,
 * `fallback` holds where none does.
 */
export const rateStretches = (
  periods: readonly LossPeriod[],
  fallback: LossRate,
  { fromAt, untilAt }: Span,
  lastAt: number,
): RateStretches => {
  const pieces = ratePieces(periods, fromAt, Math.max(untilAt, fromAt + 1), fallback);
  const subject = pieces.findLast((piece) => piece.fromAt < lastAt) ?? pieces[0];
  if (subject === undefined) throw new PlanningError("defect", "A span without a loss rate.");

  const stretches: Span[] = [];
  const apart: (Span & { reason: string })[] = [];
  for (const piece of pieces) {
    if (!isAlike(piece, subject)) {
      apart.push({ fromAt: piece.fromAt, untilAt: piece.untilAt, reason: reasonOf(piece) });
      continue;
    }
    const before = stretches.at(-1);
    if (before?.untilAt === piece.fromAt) stretches[stretches.length - 1] = { ...before, untilAt: piece.untilAt };
    else stretches.push({ fromAt: piece.fromAt, untilAt: piece.untilAt });
  }
  const { kPerDay, cKgPerDay } = subject;
  return { rate: { kPerDay, cKgPerDay }, reason: reasonOf(subject), stretches, apart };
};
