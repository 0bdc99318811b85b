/** Ports and hulls as the search counts them, with what kept flights hold of them. */
import { expectedTimes, isAhead } from "../forecast/compile-flights.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Lane, Resource } from "./problem.ts";

/** When a flight departs and arrives as the forecast sees it; one that has arrived, as it did. */
const timesOf = (flight: Entity<"flight">, asOfAt: number): { departAt: number; arriveAt: number } =>
  flight.status === "arrived" ? flight : expectedTimes(flight, asOfAt);

const concerns = (flight: Entity<"flight">): boolean => isAhead(flight) || flight.status === "arrived";

/** The ports of a depot; kept flights are those of the plan. */
export const portsOf = (plan: PlanSnapshot, lanes: readonly Lane[], depotId: string): Resource => ({
  kind: "ports",
  ownerId: depotId,
  capacity: plan.depots.find(({ id }) => id === depotId)?.ports ?? 0,
  lanes: lanes.flatMap((lane, index) => (lane.depotId === depotId && lane.originDepotId === null ? [index] : [])),
  arriving: lanes.flatMap((lane, index) => (lane.depotId === depotId && lane.originDepotId !== null ? [index] : [])),
  leadMs: new Float64Array(lanes.length),
  holdMs: Float64Array.from(lanes, ({ berthMs }) => berthMs),
  kept: plan.flights.flatMap((flight) => {
    if (flight.depotId !== depotId || !concerns(flight)) return [];
    const { arriveAt } = timesOf(flight, plan.asOfAt);
    const until = arriveAt + flight.berthDays * DAY_MS;
    return until > Math.max(arriveAt, plan.asOfAt) ? [[arriveAt, until] as const] : [];
  }),
});

/** The hulls of a class: away from the departure to the end of the stay and the turnaround after it. */
export const hullsOf = (
  plan: PlanSnapshot,
  lanes: readonly Lane[],
  classId: string,
  hulls: number,
  turnaroundMs: number,
): Resource => {
  const ofClass = new Set(plan.craft.filter((craft) => craft.classId === classId).map(({ id }) => id));
  return {
    kind: "hulls",
    ownerId: classId,
    capacity: hulls,
    lanes: lanes.flatMap((lane, index) => (lane.craftClass.id === classId ? [index] : [])),
    // From another depot a flight is chosen as it departs, else as it arrives.
    leadMs: Float64Array.from(lanes, ({ tripMs, originDepotId }) => (originDepotId === null ? tripMs : 0)),
    holdMs: Float64Array.from(
      lanes,
      ({ tripMs, berthMs, originDepotId }) => (originDepotId === null ? 0 : tripMs) + berthMs + turnaroundMs,
    ),
    arriving: [],
    kept: plan.flights.flatMap((flight) => {
      if (!ofClass.has(flight.craftId) || !concerns(flight)) return [];
      const { departAt, arriveAt } = timesOf(flight, plan.asOfAt);
      const until = arriveAt + flight.berthDays * DAY_MS + turnaroundMs;
      return until > Math.max(departAt, plan.asOfAt) ? [[departAt, until] as const] : [];
    }),
  };
};
