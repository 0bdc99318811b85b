/** What must be loaded at the source for each kilogram that a plan case's flights hand over, propellant by propellant. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Forecast } from "./outcome.ts";

/**
 * Kilograms loaded at the source per kilogram handed over at a depot, by propellant id, over the forecast's flights that
 * come from a source and find room for all that they bring: boil-off under way, residuals, chilldown and handover losses
 * are in it. A propellant that no such flight brings is left out.
 */
export const launchedPerKg = (plan: PlanSnapshot, { flights }: Forecast): ReadonlyMap<string, number> => {
  const fromSource = new Set(plan.flights.flatMap(({ id, origin }) => (origin.kind === "source" ? [id] : [])));
  const sums = new Map<string, { loaded: number; taken: number }>();
  const whole = flights
    .filter(({ flightId }) => fromSource.has(flightId))
    .flatMap(({ lines }) => lines.filter(({ keptAboardKg, ventedKg }) => keptAboardKg + ventedKg === 0));
  for (const line of whole) {
    const taken = line.taken.reduce((all, { massKg }) => all + massKg, 0);
    // One that does not arrive hands nothing over: it is no measure of the way.
    if (taken <= 0) continue;
    const { loaded, taken: before } = sums.get(line.propellantId) ?? { loaded: 0, taken: 0 };
    sums.set(line.propellantId, { loaded: loaded + line.loadedKg, taken: before + taken });
  }
  return new Map([...sums].map(([id, { loaded, taken }]) => [id, loaded / taken]));
};
