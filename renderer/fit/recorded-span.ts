/** The span in which a ledger has records. */
import type { CaseForecast } from "../state/case-forecast.ts";

/** From the first record to the as-of instant, ms UTC; null: nothing is recorded. */
export const recordedSpan = ({
  view,
  plan,
}: CaseForecast): { readonly fromAt: number; readonly untilAt: number } | null => {
  const firsts = view.past.flatMap(({ segments }) => segments.slice(0, 1).map(({ startAt }) => startAt));
  const fromAt = Math.min(...firsts);
  return fromAt < plan.asOfAt ? { fromAt, untilAt: plan.asOfAt } : null;
};
