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

/** The same steps as from an instant on, from another on. */
const everyFrom = (firstAt: number, phaseAt: number, untilAt: number, stepMs: number): readonly number[] =>
  every(phaseAt - Math.floor((phaseAt - firstAt) / stepMs) * stepMs, untilAt, stepMs);

/**
 * By the cadence of a class: from the first that can be there on, none in a blackout. `tripMs`: of a shorter transit than
 * that from a source, whose flights arrive in the same steps, and sooner.
 */
export const cadenceInstants = (
  plan: PlanSnapshot,
  { tripDays }: Entity<"craftClass">,
  everyDays: number,
  asked: ResupplyAsked,
  tripMs = tripDays * DAY_MS,
): readonly number[] => {
  const phaseAt = Math.ceil(plan.asOfAt + tripDays * DAY_MS);
  return everyFrom(Math.ceil(plan.asOfAt + tripMs), phaseAt, plan.horizonAt, everyDays * DAY_MS).filter(
    (at) => !isBlack(at, asked),
  );
};

/**
 * Rising, none in a blackout, none before a flight that leaves at the as-of instant could be there; `tripMs`: by another
 * transit than the shortest from a source.
 */
export const arrivalInstants = (
  plan: PlanSnapshot,
  depot: Entity<"depot">,
  classes: readonly Entity<"craftClass">[],
  asked: ResupplyAsked,
  tripMs = Math.min(...classes.map(({ tripDays }) => tripDays)) * DAY_MS,
): readonly number[] => {
  const { arrivals, isBeforeLoadings } = asked;
  const phaseAt = Math.ceil(plan.asOfAt + Math.min(...classes.map(({ tripDays }) => tripDays)) * DAY_MS);
  const firstAt = Math.ceil(plan.asOfAt + tripMs);
  const regular = (): readonly number[] => {
    if (arrivals.kind === "list") return arrivals.at;
    if (arrivals.kind === "every") return everyFrom(firstAt, phaseAt, plan.horizonAt, arrivals.days * DAY_MS);
    return windowsOf(depot) === null
      ? everyFrom(firstAt, phaseAt, plan.horizonAt, USUAL_DAYS * DAY_MS)
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
