/**
 * The plan as an iCalendar (RFC 5545): flights, their berths, sorties and, by choice, departure windows,
 * dates to leave by and what is watched. Every event's UID
 * comes from the key of its flight or sortie, the plan case and the ledger, so that taking the file in again updates what is there;
 * what was called off or deleted is sent as cancelled under the same UID, so that it goes from the calendars that have it.
 */
import ical, { type ICalCalendar, ICalCalendarMethod, ICalEventStatus, ICalEventTransparency } from "ical-generator";
import type { CalledOff } from "../../ledger/called-off.ts";
import type { PlanSnapshot } from "../../entity/plan.ts";
import { formatMass } from "../../format/mass.ts";
import { eventUid } from "./event-uid.ts";
import type { Entity } from "../../entity/entities.ts";
import { DAY_MS } from "../../ground/quantity.ts";
import { windowsBetween } from "../../entity/windows.ts";
import type { SortieSupply } from "../../supply/answer.ts";
import type { WatchItem } from "../../supply/watch.ts";
import { capitalised } from "../../words/counted.ts";
import { depotName, propellantName } from "../names.ts";

export interface CalendarMaking {
  /** When it was made (DTSTAMP), ms UTC. */
  readonly stampAt: number;
  /** Rises with each change of the ledger (SEQUENCE). */
  readonly revision: number;
  readonly hasWindows: boolean;
  /** By what the ledger is known; null: its books have no entry yet. */
  readonly ledgerId: string | null;
  /** What the plan case had and has no longer. */
  readonly calledOff: readonly CalledOff[];
  /** Latest departures of planned flights, by choice; null: no sortie fares worse however late. */
  readonly leaveBy?: readonly { readonly flightId: string; readonly at: number | null }[];
  /** What heads the whole: that it looks back, where it does, and the verdict; left out: nothing. */
  readonly heading?: readonly string[];
  /** Why nothing that is forecast can be believed: said in place of each sortie's status; null: it can. */
  readonly unsound?: string | null;
  /** What must be watched, by choice; flights that must leave stand under `leaveBy`. */
  readonly watch?: readonly WatchItem[];
}

/** A flight does not keep whoever has the calendar from other appointments; a sortie does (RFC 5545, 3.8.2.7). */
const FREE = ICalEventTransparency.TRANSPARENT;
const BUSY = ICalEventTransparency.OPAQUE;

const statusOf = (status: string): ICalEventStatus => {
  if (status === "cancelled" || status === "stood down" || status === "lost") return ICalEventStatus.CANCELLED;
  return status === "planned" ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED;
};

type Common = { readonly stamp: Date; readonly sequence: number };

interface Writing {
  readonly calendar: ICalCalendar;
  readonly common: Common;
  readonly plan: PlanSnapshot;
  readonly making: CalendarMaking;
}

const addFlight = ({ calendar, common, plan, making }: Writing, flight: Entity<"flight">): void => {
  const loads = flight.loads
    .map((load) => `${propellantName(plan, load.propellantId)} ${formatMass(load.loadedKg)}`)
    .join(", ");
  const status = flight.status === "lost" ? ICalEventStatus.CONFIRMED : statusOf(flight.status);
  calendar.createEvent({
    ...common,
    id: eventUid("flight", flight.key, plan.planCase.id, making.ledgerId),
    start: new Date(flight.departAt),
    end: new Date(flight.arriveAt),
    summary: `${flight.name} to ${depotName(plan, flight.depotId)}${flight.status === "lost" ? ": lost" : ""}`,
    description: `Flight, ${flight.status}. Loaded: ${loads}.`,
    status,
    transparency: FREE,
  });
  if (flight.berthDays > 0)
    calendar.createEvent({
      ...common,
      id: eventUid("berth", flight.key, plan.planCase.id, making.ledgerId),
      start: new Date(flight.arriveAt),
      end: new Date(flight.arriveAt + flight.berthDays * DAY_MS),
      summary: `${flight.name} at ${depotName(plan, flight.depotId)}`,
      description: "Time at the port.",
      // A lost flight never comes to its berth.
      status: statusOf(flight.status),
      transparency: FREE,
    });
};

/** Under the UIDs that it had: so it goes from the calendars that have it, and is never anything else in them. */
const addCalledOff = ({ calendar, common, plan, making }: Writing, gone: CalledOff): void => {
  const { kind, key, name, startAt, endAt, berthDays } = gone;
  const cancelled = { ...common, status: ICalEventStatus.CANCELLED, transparency: FREE };
  calendar.createEvent({
    ...cancelled,
    id: eventUid(kind, key, plan.planCase.id, making.ledgerId),
    start: new Date(startAt),
    end: new Date(endAt),
    summary: name,
    description: "No longer in the plan.",
  });
  if (berthDays > 0)
    calendar.createEvent({
      ...cancelled,
      id: eventUid("berth", key, plan.planCase.id, making.ledgerId),
      start: new Date(endAt),
      end: new Date(endAt + berthDays * DAY_MS),
      summary: name,
      description: "No longer in the plan.",
    });
};

/** `sorties`: the supply check of the plan; a sortie that is short says so in its title. */
export const planToCalendar = (
  plan: PlanSnapshot,
  sorties: readonly SortieSupply[],
  making: CalendarMaking,
): string => {
  const calendar = ical({
    name: plan.planCase.name,
    prodId: { company: "Coldstock", product: "Plan", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
    ...(making.heading === undefined ? {} : { description: making.heading.join(" ") }),
  });
  const unsound = making.unsound ?? null;
  const common = { stamp: new Date(making.stampAt), sequence: making.revision };
  const writing = { calendar, common, plan, making };
  for (const flight of plan.flights) addFlight(writing, flight);
  const short = new Set(sorties.filter(({ status }) => status === "short").map(({ sortieId }) => sortieId));
  for (const sortie of plan.sorties)
    calendar.createEvent({
      ...common,
      id: eventUid("sortie", sortie.key, plan.planCase.id, making.ledgerId),
      start: new Date(sortie.loadAt),
      end: new Date(sortie.returnAt),
      summary: `${sortie.name}${unsound !== null ? ": no verdict" : short.has(sortie.id) ? ": short of propellant" : ""}`,
      description: `${unsound === null ? "" : `${unsound} `}Sortie from ${depotName(plan, sortie.depotId)}: loading to return.`,
      status: statusOf(sortie.status),
      transparency: BUSY,
    });
  for (const gone of making.calledOff) addCalledOff(writing, gone);
  for (const { flightId, at } of making.leaveBy ?? []) {
    const flight = plan.flights.find(({ id }) => id === flightId);
    if (flight === undefined || at === null) continue;
    calendar.createEvent({
      ...common,
      id: eventUid("leave-by", flight.key, plan.planCase.id, making.ledgerId),
      start: new Date(at),
      summary: `Leave by: ${flight.name} to ${depotName(plan, flight.depotId)}`,
      description: "The latest departure, all else as planned: a minute later a sortie fares worse.",
      status: ICalEventStatus.TENTATIVE,
      transparency: FREE,
    });
  }
  for (const { id, reason, at, name, sentence } of making.watch ?? [])
    calendar.createEvent({
      ...common,
      id: eventUid("watch", id, plan.planCase.id, making.ledgerId),
      start: new Date(at),
      summary: `${capitalised(reason)}: ${name}`,
      description: sentence,
      status: ICalEventStatus.TENTATIVE,
      transparency: FREE,
    });
  if (!making.hasWindows) return calendar.toString();
  for (const depot of plan.depots)
    for (const at of windowsBetween(depot, plan.asOfAt, plan.horizonAt))
      calendar.createEvent({
        ...common,
        id: eventUid("window", `${depot.id}-${at}`, plan.planCase.id, making.ledgerId),
        start: new Date(at),
        summary: `Departure window at ${depot.name}`,
        status: ICalEventStatus.TENTATIVE,
        transparency: FREE,
      });
  return calendar.toString();
};
