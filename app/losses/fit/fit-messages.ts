/** What a fit says about itself, in sentences; and what keeps it from being adopted. */
import type { FitResult } from "./fit-result.ts";
import { FLAGGED_BEYOND_SIGMA } from "./observations.ts";

type Numbers = Omit<FitResult, "messages" | "cannotAdoptBecause">;

const CANNOT_TELL =
  "The readings cannot tell k from c: they fix the loss in kg a day at this level, not how it depends on the level. Fit one of the two and hold the other.";

/** Both fitted, and the part that goes with the level is uncertain by more than the whole loss, or there is no reading to spare. */
export const cannotTellApart = (fit: Numbers): boolean => {
  if (fit.fitted !== "k and c" || fit.kInterval === null) return false;
  const halfKgPerDay = ((fit.kInterval.high - fit.kInterval.low) / 2) * fit.meanLevelKg;
  return fit.degreesOfFreedom === 0 || halfKgPerDay >= Math.abs(fit.lossKgPerDay);
};

const runsEmpty = (fit: Numbers): boolean => fit.readings.some((reading) => reading.fittedKg <= 0);

export const fitMessages = (fit: Numbers): readonly string[] => {
  const messages: string[] = [];
  if (cannotTellApart(fit)) messages.push(CANNOT_TELL);
  if (fit.reducedChiSquare === null) {
    messages.push("There is no reading to spare: the interval rests on the gauge's stated uncertainty alone.");
  } else if (fit.reducedChiSquareRange !== null && fit.reducedChiSquare > fit.reducedChiSquareRange.high) {
    messages.push(
      "The readings scatter more than their stated uncertainty allows: the gauge is worse than stated, a transfer is missing, or the rate changed in this span. The interval has been widened for it.",
    );
  } else if (fit.reducedChiSquareRange !== null && fit.reducedChiSquare < fit.reducedChiSquareRange.low) {
    messages.push(
      "The readings scatter less than their stated uncertainty: it may be stated too large. The interval keeps to what is stated.",
    );
  }
  if (fit.flagged > 0) {
    messages.push(
      `${fit.flagged === 1 ? "One reading lies" : `${fit.flagged} readings lie`} beyond ${FLAGGED_BEYOND_SIGMA} σ of the fit. They count until you leave them out or withdraw them.`,
    );
  }
  if (fit.lossInterval.low <= 0)
    messages.push("The interval of the loss reaches down to nothing: the readings do not prove a loss.");
  return messages;
};

/** null: it may become a loss period. */
export const adoptObstacle = (fit: Numbers): string | null => {
  if (cannotTellApart(fit)) return CANNOT_TELL;
  if (fit.kPerDay < 0)
    return "k came out below 0: a tank does not fill itself. Fit c alone, or look for a transfer that is not in the books.";
  if (fit.cKgPerDay < 0)
    return "c came out below 0: a tank does not fill itself. Fit k alone, or look for a transfer that is not in the books.";
  if (fit.kPerDay > 10 || fit.cKgPerDay > 1e7) return "The rate is beyond what a loss period may hold.";
  if (runsEmpty(fit))
    return "The fitted level runs empty within the readings: those at an empty tank say nothing of its loss. Shorten the span.";
  return null;
};
