/**
 * The plan as an iCalendar (RFC 5545): flights, their berths, sorties, departure windows. Every event's UID comes from the key of its flight
 * or sortie and the plan case, so that taking the file in again updates what is there.
 */
import ical, { ICalCalendarMethod, ICalEventStatus } from "ical-generator";
import type { PlanSnapshot } from "../../forecast/plan.ts";
import { formatMass } from "../../format/mass.ts";
import { eventUid } from "../../exchange/calendar/event-uid.ts";
import { DAY_MS } from "../../ledger/quantity.ts";
import { windowsBetween } from "../../ledger/windows.ts";
import { depotName, propellantName } from "../names.ts";

/** The calendar's text. `stampAt`: when it was made (DTSTAMP); `revision`: rises with each change of the ledger (SEQUENCE). */
export const planToCalendar = (plan: PlanSnapshot, stampAt: number, revision: number): string => {
  const calendar = ical({
    name: plan.planCase.name,
    prodId: { company: "Coldstock", product: "Plan", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
  });
  const stamp = new Date(stampAt);
  const common = { stamp, sequence: revision } as const;
  for (const flight of plan.flights) {
    if (flight.status === "cancelled") continue;
    const loads = flight.loads
      .map((load) => `${propellantName(plan, load.propellantId)} ${formatMass(load.loadedKg)}`)
      .join(", ");
    calendar.createEvent({
      ...common,
      id: eventUid("flight", flight.key, plan.planCase.id),
      start: new Date(flight.departAt),
      end: new Date(flight.arriveAt),
      summary: `${flight.name} to ${depotName(plan, flight.depotId)}`,
      description: `Flight, ${flight.status}. Loaded: ${loads}.`,
      status: flight.status === "planned" ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED,
    });
    if (flight.berthDays > 0 && flight.status !== "lost")
      calendar.createEvent({
        ...common,
        id: eventUid("berth", flight.key, plan.planCase.id),
        start: new Date(flight.arriveAt),
        end: new Date(flight.arriveAt + flight.berthDays * DAY_MS),
        summary: `${flight.name} at ${depotName(plan, flight.depotId)}`,
        description: "Time at the port.",
      });
  }
  for (const sortie of plan.sorties) {
    if (sortie.status === "cancelled" || sortie.status === "stood down") continue;
    calendar.createEvent({
      ...common,
      id: eventUid("sortie", sortie.key, plan.planCase.id),
      start: new Date(sortie.loadAt),
      end: new Date(sortie.returnAt),
      summary: sortie.name,
      description: `Sortie from ${depotName(plan, sortie.depotId)}: loading to return.`,
      status: sortie.status === "planned" ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED,
    });
  }
  for (const depot of plan.depots)
    for (const at of windowsBetween(depot, plan.asOfAt, plan.horizonAt))
      calendar.createEvent({
        ...common,
        id: eventUid("window", `${depot.id}-${at}`, plan.planCase.id),
        start: new Date(at),
        summary: `Departure window at ${depot.name}`,
        status: ICalEventStatus.TENTATIVE,
      });
  return calendar.toString();
};
