/**
 * A loss rate in the units that planners use. A rate in per cent compounds: each day takes its share of what is still
 * there, so 30 days at 0.127 %/day lose 3.7407 %, not 3.81 %. A month is 30 days here.
 */
import { PlanningError } from "../ground/failure.ts";

/** Days in the month of "%/month". */
export const RATE_MONTH_DAYS = 30;

/** What a rate in per cent means, for the place where it is typed. */
export const COMPOUND_MEANING = "Per cent of what is there, compounding; a month is 30 days.";

/** How a loss goes on over a span: the same mass every day, a share of what is left, or both. */
export type LossForm = "constant" | "compounding" | "constant and compounding";

/** The form of dm/dt = −(k·m + c). A tank without loss counts as constant. */
export const lossForm = ({ kPerDay, cKgPerDay }: { readonly kPerDay: number; readonly cKgPerDay: number }): LossForm =>
  kPerDay === 0 ? "constant" : cKgPerDay === 0 ? "compounding" : "constant and compounding";

/** What a figure over days means, by the form of the loss, for the place where it is shown. */
export const lossFormMeaning: { readonly [F in LossForm]: string } = {
  constant: "Constant: the same mass every day, whatever is left; a month is 30 days.",
  compounding: COMPOUND_MEANING,
  "constant and compounding":
    "One part is the same mass every day, the other per cent of what is there, compounding; a month is 30 days.",
};

/** k in 1/day from the share lost in `overDays`, per cent, compounding: k = −ln(1 − r)/days. Throws at 100 % or more. */
export const kFromPercent = (percent: number, overDays: number): number => {
  if (!(percent >= 0 && percent < 100)) {
    throw new PlanningError("invalid input", `A loss of ${percent} % is not from 0 to below 100 %.`, "percent");
  }
  return -Math.log1p(-percent / 100) / overDays;
};

/** Per cent lost in `overDays` at k per day, compounding. */
export const percentFromK = (kPerDay: number, overDays: number): number => -100 * Math.expm1(-kPerDay * overDays);

/** One loss rate at one level, in every unit. */
export interface RateInUnits {
  /** How the figures over days were come by. */
  readonly form: LossForm;
  readonly kgPerDay: number;
  /** Of the present level, in the next day; and in the next 30 days, k compounding. Null at an empty tank. */
  readonly percentPerDay: number | null;
  readonly percentPerMonth: number | null;
  /** The heat that boils as much; null without a heat of vaporisation. */
  readonly heatW: number | null;
}

/**
 * The rate dm/dt = −(k·m + c) at level m. kg/day is the rate of this instant; the percentages are what the coming day and
 * 30 days really take from this level (never more than all of it), so both the compounding part and the steady part count.
 */
export const rateInUnits = (
  rate: { readonly kPerDay: number; readonly cKgPerDay: number },
  levelKg: number,
  vaporisationKJPerKg: number | null,
): RateInUnits => {
  const kgPerDay = rate.kPerDay * levelKg + rate.cKgPerDay;
  const percentIn = (days: number): number | null => {
    if (levelKg <= 0) return null;
    const x = rate.kPerDay * days;
    const meanDays = x === 0 ? days : (-Math.expm1(-x) / x) * days;
    return Math.min(100, (100 * kgPerDay * meanDays) / levelKg);
  };
  return {
    form: lossForm(rate),
    kgPerDay,
    percentPerDay: percentIn(1),
    percentPerMonth: percentIn(RATE_MONTH_DAYS),
    heatW: vaporisationKJPerKg === null ? null : (kgPerDay * vaporisationKJPerKg) / 86.4,
  };
};
