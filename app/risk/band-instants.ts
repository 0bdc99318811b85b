/** The instants at which levels are kept for bands: where things are planned to happen, and evenly between. */
import type { PlanSnapshot } from "../entity/plan.ts";

/** Even ones over the whole span, and the most of planned instants beside them. */
const EVEN = 200;
const MAX_PLANNED = 200;

/** Rising, each once, from the as-of instant to the horizon. */
export const bandInstants = (plan: PlanSnapshot): readonly number[] => {
  const { asOfAt, horizonAt } = plan;
  if (horizonAt <= asOfAt) return [asOfAt];
  const planned = [
    ...plan.flights.filter(({ status }) => status !== "cancelled").map(({ arriveAt }) => arriveAt),
    ...plan.sorties.filter(({ status }) => status === "planned").map(({ loadAt }) => loadAt),
  ]
    .filter((at) => at > asOfAt && at < horizonAt)
    .toSorted((a, b) => a - b);
  // Of many, every second or third: a curve of more points than a screen has is no better.
  const stride = Math.ceil(planned.length / MAX_PLANNED);
  const even = Array.from({ length: EVEN + 1 }, (_, n) => asOfAt + Math.round(((horizonAt - asOfAt) * n) / EVEN));
  const kept = planned.filter((_, index) => index % Math.max(1, stride) === 0);
  return [...new Set([...even, ...kept])].toSorted((a, b) => a - b);
};
