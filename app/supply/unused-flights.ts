/** Flights that bring nothing that is drawn before the horizon. */
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { PlanFinding } from "./answer.ts";

/** When each propellant of each depot is last drawn. */
const lastDraws = (plan: PlanSnapshot, seen: Forecast): ReadonlyMap<string, number> => {
  const depotOf = new Map(plan.tanks.map((tank) => [tank.id, tank.ownerId]));
  const last = new Map<string, number>();
  const note = (tankId: string, propellantId: string, at: number): void => {
    const key = JSON.stringify([depotOf.get(tankId), propellantId]);
    last.set(key, Math.max(at, last.get(key) ?? at));
  };
  for (const sortie of seen.sorties)
    for (const line of sortie.lines)
      for (const part of line.drawn) note(part.tankId, line.propellantId, sortie.loadedAt ?? sortie.plannedAt);
  for (const flight of seen.flights)
    for (const line of flight.lines)
      for (const part of line.drawn) note(part.tankId, line.propellantId, flight.departAt);
  return last;
};

/** A flight is unused when, of each propellant that it brings, nothing is drawn at that depot from its arrival on. */
export const unusedFlights = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const last = lastDraws(plan, seen);
  const depots = new Map(plan.flights.map((flight) => [flight.id, flight.depotId]));
  return seen.flights.flatMap((flight): readonly PlanFinding[] => {
    const isUsed = flight.lines.some(
      (line) =>
        line.taken.length > 0 &&
        (last.get(JSON.stringify([depots.get(flight.flightId), line.propellantId])) ?? -Infinity) >= flight.arriveAt,
    );
    return isUsed ? [] : [{ kind: "unused flight", flightId: flight.flightId }];
  });
};
