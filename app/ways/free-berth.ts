/** When the ports of a depot are taken, and the latest time at which one more tanker finds one free. */
import { expectedTimes, isAhead } from "../forecast/compile-flights.ts";
import { type PlanSnapshot, startOf } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";

interface Stay {
  readonly fromAt: number;
  readonly untilAt: number;
}

/** Stays at the ports of a depot that end after the as-of instant, as the forecast sees them. */
const staysAt = (plan: PlanSnapshot, depotId: string): readonly Stay[] =>
  plan.flights.flatMap((flight) => {
    if (flight.depotId !== depotId || !(isAhead(flight) || flight.status === "arrived")) return [];
    const fromAt = flight.status === "arrived" ? flight.arriveAt : expectedTimes(flight, startOf(plan)).arriveAt;
    const untilAt = fromAt + flight.berthDays * DAY_MS;
    return untilAt > Math.max(fromAt, plan.asOfAt) ? [{ fromAt, untilAt }] : [];
  });

/** Whether a port is free all the while. One that leaves makes room for one that arrives at the same instant. */
const isFree = (stays: readonly Stay[], ports: number, fromAt: number, untilAt: number): boolean => {
  const meeting = stays.filter((stay) => stay.fromAt < untilAt && stay.untilAt > fromAt);
  // The crowd is greatest at the beginning, or where another stay begins.
  const instants = [fromAt, ...meeting.map((stay) => stay.fromAt).filter((at) => at > fromAt)];
  return instants.every((at) => meeting.filter((stay) => stay.fromAt <= at && stay.untilAt > at).length < ports);
};

/**
 * The latest arrival not after `limitAt` and not before `firstAt` at which a port of the depot is free for `berthDays`;
 * null: there is none.
 */
export const latestFreeArrival = (
  plan: PlanSnapshot,
  depotId: string,
  berthDays: number,
  firstAt: number,
  limitAt: number,
): number | null => {
  const berthMs = berthDays * DAY_MS;
  const ports = plan.depots.find(({ id }) => id === depotId)?.ports ?? 0;
  const stays = staysAt(plan, depotId);
  // Going back from the limit, a port becomes free where another stay begins just as this one would end.
  const candidates = [limitAt, ...stays.map((stay) => Math.floor(stay.fromAt - berthMs))]
    .filter((at) => at <= limitAt && at >= firstAt)
    .toSorted((a, b) => b - a);
  return candidates.find((at) => berthMs === 0 || isFree(stays, ports, at, at + berthMs)) ?? null;
};
