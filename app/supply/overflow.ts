/** Deliveries that did not fit, flights into a full depot, and depots that could not give what a flight was to load. */
import type { Forecast } from "../forecast/outcome.ts";
import { NOTHING_KG } from "../forecast/pool.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { byId } from "../forecast/draft.ts";
import type { PlanFinding } from "./answer.ts";

/** Less than this is rounding of a metered transfer, not an overflow. kg */
const LEAST_KG = 0.001;

export const overflowFindings = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const flights = byId(plan.flights);
  return seen.flights.flatMap((row): readonly PlanFinding[] => {
    const flight = flights.get(row.flightId);
    if (flight === undefined) return [];
    const found: PlanFinding[] = [];
    const come = row.lines.filter((line) => line.untilAt !== null && line.offeredKg > NOTHING_KG);
    const isFull = come.length > 0 && come.every((line) => line.taken.every((part) => part.massKg < LEAST_KG));
    if (isFull) found.push({ kind: "full depot", flightId: flight.id, depotId: flight.depotId, at: row.arriveAt });
    for (const line of come) {
      const notTakenKg = line.keptAboardKg + line.ventedKg;
      // A handover that the horizon cut short has not overflowed.
      if (notTakenKg < LEAST_KG || line.untilAt === seen.horizonAt) continue;
      const fate = flight.overflow === "vent" ? "vented" : "kept aboard";
      found.push({
        kind: "overflow",
        flightId: flight.id,
        propellantId: line.propellantId,
        at: line.untilAt ?? row.arriveAt,
        notTakenKg,
        fate,
      });
    }
    for (const { propellantId, missingKg } of row.lines)
      if (missingKg > LEAST_KG && row.departAt <= seen.horizonAt)
        found.push({ kind: "origin ran dry", flightId: flight.id, propellantId, at: row.departAt, missingKg });
    return found;
  });
};
