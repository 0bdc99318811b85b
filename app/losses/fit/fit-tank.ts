/** A fit on one tank of a ledger: its readings, what moved between them, the rate in force as the start. */
import type { LossRate } from "../../storage/loss-rate.ts";
import type { LevelSegment } from "../../storage/segment.ts";
import { carryForward } from "../../ledger/carry-forward.ts";
import type { Reading } from "../../ledger/journal.ts";
import type { TankFitQuestion, TankFitRequest } from "./fit-question.ts";
import type { FitResult } from "./fit-result.ts";
import { fitRate } from "./fit-rate.ts";
import { type RateStretches, rateStretches } from "./stretches.ts";

/** A fit on a tank, with the level as the rates in force would have had it from the first reading on. */
export interface TankFit extends FitResult {
  readonly predicted: readonly LevelSegment[];
  /** The rate by the loss periods that the fit is to be set beside, and why it is believed. */
  readonly inForce: LossRate & { readonly reason: string };
  /** Where another rate was in force among the readings, and why. */
  readonly apartSpans: RateStretches["apart"];
}

/** Throws as {@link fitRate}. */
export const fitTank = ({ request, periods, fallback, readings, transfers, ...tank }: TankFitQuestion): TankFit => {
  const found = rateStretches(periods, fallback, request, lastReadingAt(readings, request));
  const isApart = request.rateChanges === "apart";
  const fit = fitRate({
    ...request,
    readings,
    transfers,
    stretches: isApart ? found.stretches : null,
    holdsKg: tank.holdsKg,
    rate: request.held ?? found.rate,
  });
  const start = { at: fit.firstAt, massKg: fit.readings[0]?.massKg ?? 0 };
  const between = transfers.filter(({ at, massKg }) =>
    massKg > 0 ? at > fit.firstAt && at <= fit.lastAt : at >= fit.firstAt && at < fit.lastAt,
  );
  const { segments: predicted } = carryForward(start, between, { periods, fallback }, fit.lastAt);
  // Of all readings, also of those that do not count.
  const seen = [fit.firstAt, fit.lastAt, ...fit.apart.map(({ at }) => at)];
  const apartSpans = found.apart.filter(
    ({ fromAt, untilAt }) => fromAt < Math.max(...seen) && untilAt > Math.min(...seen),
  );
  const words = isApart ? apartMessages(found, fit, apartSpans) : asOneMessages(apartSpans);
  return {
    ...fit,
    messages: [...fit.messages, ...words],
    predicted,
    inForce: { ...found.rate, reason: found.reason },
    apartSpans: isApart ? apartSpans : [],
  };
};

/** The last reading that may count; the end of the span without one. */
const lastReadingAt = (readings: readonly Reading[], { fromAt, untilAt, leftOutIds }: TankFitRequest): number =>
  readings
    .filter(({ id, at, isWithdrawn }) => !isWithdrawn && at >= fromAt && at <= untilAt && !leftOutIds.includes(id))
    .reduce((last, { at }) => Math.max(last, at), -Infinity);

const reasonsOf = (spans: RateStretches["apart"]): string => [...new Set(spans.map(({ reason }) => reason))].join(", ");

const apartMessages = (found: RateStretches, fit: FitResult, spans: RateStretches["apart"]): readonly string[] => {
  if (spans.length === 0) return [];
  const count = fit.apart.length;
  const readings = count === 0 ? "" : ` ${count === 1 ? "One reading" : `${count} readings`} under it do not count.`;
  return [
    `The fit is of the rate “${found.reason}”. Another was in force at times (${reasonsOf(spans)}): the level begins anew after it, so that nothing is assumed of what was lost meanwhile.${readings}`,
  ];
};

const asOneMessages = (spans: RateStretches["apart"]): readonly string[] =>
  spans.length === 0
    ? []
    : [
        `The rate in force changes within these readings (${reasonsOf(spans)}); one rate is fitted to all of them, and is true of neither.`,
      ];
