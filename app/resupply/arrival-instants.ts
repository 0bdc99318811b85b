/** When flights may arrive at a depot. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { windowsBetween, windowsOf } from "../entity/windows.ts";
import { handoverLeadMs } from "../ways/added-flight.ts";
import type { ResupplyAsked } from "./asked.ts";

/** Where a depot has no windows, flights may arrive so often, days. */
const USUAL_DAYS = 7;

const every = (fromAt: number, untilAt: number, stepMs: number): readonly number[] =>
  Array.from({ length: Math.max(0, Math.floor((untilAt - fromAt) / stepMs) + 1) }, (_, n) =>
    Math.round(fromAt + n * stepMs),
  );

const isBlack = (at: number, { blackouts }: ResupplyAsked): boolean =>
  blackouts.some(({ fromAt, untilAt }) => at >= fromAt && at < untilAt);

/** By the cadence of a class: from the first that can be there on, none in a blackout. */
export const cadenceInstants = (
  plan: PlanSnapshot,
  { tripDays }: Entity<"craftClass">,
  everyDays: number,
  asked: ResupplyAsked,
): readonly number[] =>
  every(Math.ceil(plan.asOfAt + tripDays * DAY_MS), plan.horizonAt, everyDays * DAY_MS).filter(
    (at) => !isBlack(at, asked),
  );

/** Rising, none in a blackout, none before a flight that leaves at the as-of instant could be there. */
export const arrivalInstants = (
  plan: PlanSnapshot,
  depot: Entity<"depot">,
  classes: readonly Entity<"craftClass">[],
  asked: ResupplyAsked,
): readonly number[] => {
  const { arrivals, isBeforeLoadings } = asked;
  const firstAt = Math.ceil(plan.asOfAt + Math.min(...classes.map(({ tripDays }) => tripDays)) * DAY_MS);
  const regular = (): readonly number[] => {
    if (arrivals.kind === "list") return arrivals.at;
    if (arrivals.kind === "every") return every(firstAt, plan.horizonAt, arrivals.days * DAY_MS);
    return windowsOf(depot) === null
      ? every(firstAt, plan.horizonAt, USUAL_DAYS * DAY_MS)
      : windowsBetween(depot, firstAt, plan.horizonAt);
  };
  const leadMs = Math.max(0, ...classes.map(handoverLeadMs));
  const before = isBeforeLoadings
    ? plan.sorties
        .filter(({ status, depotId }) => status === "planned" && depotId === depot.id)
        .map(({ loadAt }) => loadAt - leadMs)
    : [];
  const isOpen = (at: number): boolean => at >= firstAt && at <= plan.horizonAt && !isBlack(at, asked);
  return [...new Set([...regular(), ...before])].filter(isOpen).toSorted((a, b) => a - b);
};
