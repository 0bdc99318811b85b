/** A law of slips as numbers: its quantiles. Days beyond the plan, never below 0. */
import { missingCase } from "../ground/missing-case.ts";
import type { SlipLaw } from "../entity/risk-input.ts";
import { normalQuantile } from "./normal.ts";

/** The share of cases without any slip that stands beside the law proper. */
export const noneShareOf = (law: SlipLaw): number =>
  law.kind === "none" ? 1 : law.kind === "observed" ? 0 : law.noneShare;

/** A log-normal of this mean: the mean of its logarithm. Source: mean = exp(μ + σ²/2). */
export const logMeanOf = (meanDays: number, sigma: number): number => Math.log(meanDays) - (sigma * sigma) / 2;

/** The mean of an exponential law for a date so many days ahead; dates that have passed have no lead. */
const exponentialMean = (law: SlipLaw & { readonly kind: "by lead time" | "exponential" }, leadDays: number): number =>
  law.kind === "exponential" ? law.meanDays : law.perDay * Math.max(0, leadDays);

const triangularQuantile = (low: number, mode: number, high: number, u: number): number => {
  if (high <= low) return low;
  const share = (mode - low) / (high - low);
  return u < share
    ? low + Math.sqrt(u * (high - low) * (mode - low))
    : high - Math.sqrt((1 - u) * (high - low) * (high - mode));
};

/** The slip, days, of those that slip at all, below which they lie with probability u; 0 < u < 1. `leadDays`: see "by lead time". */
export const slipQuantile = (law: SlipLaw, u: number, leadDays: number): number => {
  switch (law.kind) {
    case "none":
      return 0;
    case "by lead time":
    case "exponential":
      return -exponentialMean(law, leadDays) * Math.log1p(-u);
    case "log-normal":
      return Math.exp(logMeanOf(law.meanDays, law.sigma) + law.sigma * normalQuantile(u));
    case "triangular":
      return triangularQuantile(law.lowDays, law.modeDays, law.highDays, u);
    case "observed": {
      const sorted = law.days.toSorted((a, b) => a - b);
      return sorted[Math.min(sorted.length - 1, Math.floor(u * sorted.length))] as number;
    }
    case "quantiles": {
      const position = u * (law.days.length - 1);
      const before = Math.min(law.days.length - 2, Math.floor(position));
      const from = law.days[before] as number;
      return from + (position - before) * ((law.days[before + 1] as number) - from);
    }
    default:
      return missingCase(law);
  }
};

/** The slip, days, below which all cases lie with probability p, those without slip among them. */
export const quantileOfAll = (law: SlipLaw, p: number, leadDays: number): number => {
  const none = noneShareOf(law);
  return p <= none ? 0 : slipQuantile(law, (p - none) / (1 - none), leadDays);
};
