/** Times at which more tankers are at a depot than it has ports. */
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { PlanFinding } from "./answer.ts";

interface Stay {
  readonly flightId: string;
  readonly depotId: string;
  readonly fromAt: number;
  readonly untilAt: number;
}

const stays = (plan: PlanSnapshot, seen: Forecast): readonly Stay[] => {
  const expected = new Map(seen.flights.map((row) => [row.flightId, row]));
  return plan.flights.flatMap((flight) => {
    const fromAt = flight.status === "arrived" ? flight.arriveAt : expected.get(flight.id)?.arriveAt;
    if (fromAt === undefined) return [];
    const untilAt = fromAt + flight.berthDays * DAY_MS;
    return untilAt <= seen.asOfAt || fromAt > seen.horizonAt || untilAt <= fromAt
      ? []
      : [{ flightId: flight.id, depotId: flight.depotId, fromAt, untilAt }];
  });
};

export const portConflicts = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const byDepot = Map.groupBy(stays(plan, seen), (stay) => stay.depotId);
  return plan.depots.flatMap((depot): readonly PlanFinding[] => {
    const here = byDepot.get(depot.id) ?? [];
    // One that leaves makes room for one that arrives at the same instant.
    const moves = here
      .flatMap((stay) => [
        { at: stay.fromAt, stay, step: 1 },
        { at: stay.untilAt, stay, step: -1 },
      ])
      .toSorted((a, b) => a.at - b.at || a.step - b.step);
    const present = new Set<string>();
    const found: PlanFinding[] = [];
    let crowd = new Set<string>();
    let fromAt = 0;
    for (const { at, stay, step } of moves) {
      const wasCrowded = present.size > depot.ports;
      if (step > 0) present.add(stay.flightId);
      else present.delete(stay.flightId);
      const isCrowded = present.size > depot.ports;
      if (isCrowded && !wasCrowded) {
        crowd = new Set(present);
        fromAt = at;
      } else if (isCrowded) crowd.add(stay.flightId);
      else if (wasCrowded)
        found.push({
          kind: "port conflict",
          depotId: depot.id,
          flightIds: [...crowd].toSorted(),
          fromAt,
          untilAt: at,
          ports: depot.ports,
        });
    }
    return found;
  });
};
