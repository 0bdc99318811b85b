/** One hull, one place: flights of one tanker that overlap, a turnaround that is not kept, a lost hull that flies again. */
import { byId } from "../forecast/draft.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { PlanFinding } from "./answer.ts";

/** A flight of a hull from its departure to when it leaves the port. */
interface Trip {
  readonly flight: Entity<"flight">;
  readonly departAt: number;
  readonly busyUntilAt: number;
}

/** Instants are whole milliseconds, lengths of stays are not: less than this is no difference. */
const SAME_MS = 1000;

const tripsOf = (plan: PlanSnapshot, seen: Forecast): ReadonlyMap<string, readonly Trip[]> => {
  const expected = new Map(seen.flights.map((row) => [row.flightId, row]));
  const trips = plan.flights
    .filter(({ status }) => status !== "cancelled")
    .map((flight): Trip => {
      const { departAt, arriveAt } = expected.get(flight.id) ?? flight;
      return { flight, departAt, busyUntilAt: arriveAt + flight.berthDays * DAY_MS };
    })
    .toSorted((a, b) => a.departAt - b.departAt || (a.flight.id < b.flight.id ? -1 : 1));
  return Map.groupBy(trips, ({ flight }) => flight.craftId);
};

const isOver = ({ status }: Entity<"flight">): boolean => status === "arrived" || status === "lost";

/** What is wrong between a trip and one that departs later; null: nothing. */
const between = (earlier: Trip, later: Trip, turnaroundMs: number): PlanFinding | null => {
  const { craftId } = later.flight;
  const flightIds = [earlier.flight.id, later.flight.id] as const;
  const { departAt } = later;
  if (earlier.flight.status === "lost") return { kind: "hull was lost", craftId, flightIds };
  if (departAt < earlier.busyUntilAt - SAME_MS)
    return { kind: "hull overlap", craftId, flightIds, busyUntilAt: earlier.busyUntilAt, departAt };
  const readyAt = earlier.busyUntilAt + turnaroundMs;
  return departAt < readyAt - SAME_MS ? { kind: "turnaround not kept", craftId, flightIds, readyAt, departAt } : null;
};

/**
 * Each flight against the one of the same hull that keeps it busy longest before; of flights that are both over nothing
 * is found, as it did happen. Flights at the dates that the forecast has.
 */
export const hullFindings = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const classes = byId(plan.craftClasses);
  const craft = byId(plan.craft);
  return [...tripsOf(plan, seen)].flatMap(([craftId, trips]): readonly PlanFinding[] => {
    const turnaroundMs = (classes.get(craft.get(craftId)?.classId ?? "")?.turnaroundDays ?? 0) * DAY_MS;
    const found: PlanFinding[] = [];
    let busiest: Trip | null = null;
    for (const trip of trips) {
      if (busiest !== null && !(isOver(busiest.flight) && isOver(trip.flight))) {
        const finding = between(busiest, trip, turnaroundMs);
        if (finding !== null) found.push(finding);
      }
      // A lost hull stays lost.
      if (busiest === null || (busiest.flight.status !== "lost" && trip.busyUntilAt >= busiest.busyUntilAt))
        busiest = trip;
    }
    return found;
  });
};
