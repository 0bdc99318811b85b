/** Flights of a plan, as columns. Arrived, lost and cancelled ones are in the opening level or nowhere. */
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { carriage, type TankTable } from "./compile-tanks.ts";
import { byId, columns, sortedById } from "./draft.ts";
import { type PlanSnapshot, startOf } from "../entity/plan.ts";

/** The share kept of what flows, kept off 0 so that a gross amount stays finite. */
export const keptShare = (lossFraction: number): number => Math.max(1e-9, 1 - lossFraction);

/**
 * When a flight departs and arrives as the forecast sees it: as planned, also where no record says so yet. Where a plan
 * begins later than that (no records are replayed), it goes at the beginning.
 */
export const expectedTimes = (flight: Entity<"flight">, startAt: number) => {
  if (flight.status === "departed") return { departAt: flight.departAt, arriveAt: Math.max(flight.arriveAt, startAt) };
  const late = Math.max(0, startAt - (flight.origin.kind === "depot" ? flight.departAt : flight.arriveAt));
  return { departAt: flight.departAt + late, arriveAt: flight.arriveAt + late };
};

/** Time that the longest metered handover of a flight takes at most, ms. */
const handoverMs = (
  flight: Entity<"flight">,
  carried: (propellantId: string) => ReturnType<typeof carriage>,
): number => {
  const longest = flight.loads.map(({ propellantId, loadedKg }) => {
    const rate = carried(propellantId)?.rateKgPerDay ?? 0;
    return rate > 0 ? (loadedKg / rate) * DAY_MS : 0;
  });
  return Math.min(flight.berthDays * DAY_MS, Math.max(0, ...longest));
};

/** Whether the forecast has to do with a flight. */
export const isAhead = (flight: Entity<"flight">): boolean =>
  flight.status === "planned" || flight.status === "firm" || flight.status === "departed";

export const compileFlights = (plan: PlanSnapshot, tanks: TankTable, leftOut: ReadonlySet<string>) => {
  const classes = byId(plan.craftClasses);
  const craft = byId(plan.craft);
  const flights = sortedById(plan.flights.filter((flight) => isAhead(flight) && !leftOut.has(flight.id)));
  const column = columns("departAt", "arriveAt", "berth", "start");
  const line = columns("flight", "pool", "origin", "loaded", "k", "c", "days", "residual", "chill", "keep", "rate");
  const propellantIds: string[] = [];
  const overdueIds: string[] = [];
  flights.forEach((flight, index) => {
    const times = expectedTimes(flight, startOf(plan));
    const carriedBy = (id: string) => carriage(classes, craft.get(flight.craftId), id);
    const nextAt = flight.status === "departed" ? flight.arriveAt + handoverMs(flight, carriedBy) : flight.departAt;
    if (nextAt < plan.asOfAt) overdueIds.push(flight.id);
    column.departAt.push(times.departAt);
    column.arriveAt.push(times.arriveAt);
    column.berth.push(flight.berthDays * DAY_MS);
    column.start.push(propellantIds.length);
    const { origin } = flight;
    for (const load of flight.loads) {
      const carried = carriedBy(load.propellantId);
      propellantIds.push(load.propellantId);
      line.flight.push(index);
      const pool = tanks.poolOf(flight.depotId, load.propellantId);
      line.pool.push(pool);
      line.origin.push(
        origin.kind === "depot" && flight.status !== "departed" ? tanks.poolOf(origin.depotId, load.propellantId) : -1,
      );
      line.loaded.push(load.loadedKg);
      line.k.push(carried?.kPerDay ?? 0);
      line.c.push(carried?.cKgPerDay ?? 0);
      line.days.push((times.arriveAt - times.departAt) / DAY_MS);
      line.residual.push(carried?.residualKg ?? 0);
      line.chill.push(carried?.chilldownKg ?? 0);
      line.keep.push(keptShare(carried?.lossFraction ?? 0));
      // Into a depot without a tank for it nothing flows.
      line.rate.push(tanks.poolTanks[pool]?.length === 0 ? 0 : (carried?.rateKgPerDay ?? 0));
    }
  });
  column.start.push(propellantIds.length);
  return { flights, column, line, propellantIds, overdueIds };
};
