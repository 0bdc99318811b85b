/** The shape of an input's distribution, as a small curve: where its cases lie, and the share that has none of it. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { SlipLaw, Uncertainty } from "../../app/entity/risk-input.ts";
import { normalQuantile } from "../../app/risk/normal.ts";
import { MINUS } from "../format/number.ts";
import { noneShareOf, slipQuantile } from "../../app/risk/slip-law.ts";

export interface LawShape {
  /** Bars of equal width from `low` to `high`, the highest is 1. */
  readonly bars: readonly number[];
  readonly low: string;
  readonly high: string;
  /** Share of the cases without any of it; drawn as an upright at the left. */
  readonly noneShare: number;
}

const BARS = 24;
/** Quantiles that the bars are counted from. */
const POINTS = 480;
/** What lies beyond is not drawn: a long tail would press all else into one bar. */
const DRAWN = 0.98;

/** For a law that grows with the lead time, one year ahead stands for it. */
export const SHOWN_LEAD_DAYS = 365;

/** Two digits, three about one: a factor of 0.96 is not 1. */
const figure = (value: number): string =>
  String(Number(value.toPrecision(value > 0.5 && value < 2 ? 3 : 2))).replace("-", MINUS);

const fromQuantiles = (
  quantile: (u: number) => number,
  isFromZero: boolean,
  unit: string,
  noneShare: number,
): LawShape => {
  const values = Array.from({ length: POINTS }, (_, index) =>
    quantile(((index + 0.5) / POINTS) * DRAWN + (1 - DRAWN) / (isFromZero ? Infinity : 2)),
  );
  const low = isFromZero ? 0 : Math.min(...values);
  const high = Math.max(...values);
  const bars = Array.from({ length: BARS }, () => 0);
  for (const value of values) {
    const bar = high === low ? 0 : Math.min(BARS - 1, Math.floor(((value - low) / (high - low)) * BARS));
    bars[bar] = (bars[bar] ?? 0) + 1;
  }
  const most = Math.max(...bars);
  return { bars: bars.map((count) => count / most), low: figure(low), high: `${figure(high)}${unit}`, noneShare };
};

const slipShape = (law: SlipLaw): LawShape | null =>
  law.kind === "none"
    ? null
    : fromQuantiles((u) => slipQuantile(law, u, SHOWN_LEAD_DAYS), true, "\u202fd", noneShareOf(law));

/** Places at which a density is summed to find where it ends. */
const GRID = 2000;

/**
 * The probability of a loss as so many flights tell it: Beta(losses + 1, successes + 1), by its density. What is drawn
 * is the loss, as the input is named: 58 of 59 that arrived must not look like losses near 100 %.
 */
const lossShape = (successes: number, losses: number): LawShape => {
  const logDensity = (p: number): number => losses * Math.log(p) + successes * Math.log1p(-p);
  const trials = successes + losses;
  const mean = (losses + 1) / (trials + 2);
  // Eight standard deviations hold all of it, however lopsided.
  const bound = Math.min(1, mean + 8 * Math.sqrt((mean * (1 - mean)) / (trials + 3)));
  const likeliest = trials === 0 ? 0.5 : losses / trials;
  const top = likeliest > 0 && likeliest < 1 ? logDensity(likeliest) : 0;
  const steps = Array.from({ length: GRID }, (_, index) => Math.exp(logDensity(((index + 0.5) / GRID) * bound) - top));
  const all = steps.reduce((sum, step) => sum + step, 0);
  let end = 0;
  for (let sum = 0; sum < DRAWN * all && end < GRID; end += 1) sum += steps[end] ?? 0;
  const high = (end / GRID) * bound;
  const bars = Array.from({ length: BARS }, (_, bar) => Math.exp(logDensity(((bar + 0.5) / BARS) * high) - top));
  const most = Math.max(...bars);
  return { bars: bars.map((bar) => bar / most), low: "0", high: `${figure(100 * high)}\u202f%`, noneShare: 0 };
};

/** null: nothing is uncertain, or it is a single number. */
export const lawShape = (uncertainty: Uncertainty): LawShape | null => {
  switch (uncertainty.quantity) {
    case "flight slip":
    case "sortie slip":
    case "grounding":
      return slipShape(uncertainty.law);
    case "flight loss": {
      const { law } = uncertainty;
      return law.kind === "trials" ? lossShape(law.successes, law.trials - law.successes) : null;
    }
    case "transfer loss":
    case "sortie demand":
    case "boil-off": {
      const { law } = uncertainty;
      return law.kind === "none" ? null : fromQuantiles((u) => Math.exp(law.sigma * normalQuantile(u)), false, "×", 0);
    }
    case "cooler": {
      const { law } = uncertainty;
      return law.kind === "none"
        ? null
        : fromQuantiles((u) => -law.meanBetweenDays * Math.log1p(-u), true, "\u202fd", 0);
    }
    case "opening level": {
      const { law } = uncertainty;
      if (law.kind === "none") return null;
      return law.kind === "mass"
        ? fromQuantiles((u) => law.sigmaKg * normalQuantile(u), false, "\u202fkg", 0)
        : fromQuantiles((u) => 100 * law.sigma * normalQuantile(u), false, "\u202f%", 0);
    }
    default:
      return missingCase(uncertainty);
  }
};
