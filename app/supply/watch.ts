/**
 * What a planner must keep an eye on, in one list by date: what is overdue, sorties that are short or thin, levels that
 * cross the reserve, engines that must be changed, flights that must leave soon. From the statuses and findings of the
 * supply check alone; nothing is computed anew.
 */
import type { Flight } from "../entity/flight.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Sortie } from "../entity/sortie.ts";
import { formatDate, formatMinute } from "../format/time.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { nameIn } from "../words/named.ts";
import { findingSentence } from "./finding-sentence.ts";
import type { PlanFinding, SupplyGlance, SupplyAnswer } from "./answer.ts";
import { sortieSentence } from "./sortie-sentence.ts";

/** A flight that must leave within so many days of the as-of instant is watched. */
export const WATCH_DAYS = 30;

export type WatchReason =
  | "overdue"
  | "short"
  | "thin"
  | "needs not stated"
  | "below reserve"
  | "tank empty"
  | "engine change"
  | "must leave";

export interface WatchItem {
  /** The same as long as it is about the same thing for the same reason: names its event in a calendar. */
  readonly id: string;
  readonly reason: WatchReason;
  /** When it was due, or comes; ms UTC. */
  readonly at: number;
  readonly subject: { readonly kind: "flight" | "sortie" | "depot" | "tank"; readonly id: string };
  readonly name: string;
  readonly sentence: string;
}

type Latest = Pick<SupplyAnswer, "latestDeparture" | "slack">;

const overdueFlight = (flight: Flight): WatchItem => {
  const isUnderWay = flight.status === "departed";
  const at = isUnderWay ? flight.arriveAt : flight.departAt;
  const event = isUnderWay ? "have arrived" : "have departed";
  return {
    id: `overdue-flight-${flight.key}`,
    reason: "overdue",
    at,
    subject: { kind: "flight", id: flight.id },
    name: flight.name,
    sentence: `${flight.name} was to ${event} on ${formatMinute(at)}, and no record says that it did: the forecast assumes it.`,
  };
};

const overdueSortie = (sortie: Sortie): WatchItem => {
  const isOut = sortie.status === "departed";
  const at = isOut ? sortie.returnAt : sortie.loadAt;
  const event = isOut ? "have returned" : "have loaded";
  return {
    id: `overdue-sortie-${sortie.key}`,
    reason: "overdue",
    at,
    subject: { kind: "sortie", id: sortie.id },
    name: sortie.name,
    sentence: `${sortie.name} was to ${event} on ${formatMinute(at)}, and no record says that it did: the forecast assumes it.`,
  };
};

const ofFinding = (plan: PlanSnapshot, finding: PlanFinding): WatchItem | null => {
  const sentence = (): string => findingSentence(plan, finding);
  switch (finding.kind) {
    case "overdue": {
      const flight = plan.flights.find(({ id }) => id === finding.id);
      if (flight !== undefined) return overdueFlight(flight);
      const sortie = plan.sorties.find(({ id }) => id === finding.id);
      return sortie === undefined ? null : overdueSortie(sortie);
    }
    case "below reserve":
      return {
        id: `reserve-${finding.depotId}-${finding.propellantId}-${finding.fromAt}`,
        reason: "below reserve",
        at: finding.fromAt,
        subject: { kind: "depot", id: finding.depotId },
        name: nameIn(plan.depots, finding.depotId),
        sentence: sentence(),
      };
    case "tank empty":
      return {
        id: `empty-${finding.tankId}-${finding.fromAt}`,
        reason: "tank empty",
        at: finding.fromAt,
        subject: { kind: "tank", id: finding.tankId },
        name: nameIn(plan.tanks, finding.tankId),
        sentence: sentence(),
      };
    case "engine change due":
      return {
        id: `engines-${finding.landerId}${finding.stage === null ? "" : `-${finding.stage}`}-${finding.sortieId}`,
        reason: "engine change",
        at: finding.at,
        subject: { kind: "sortie", id: finding.sortieId },
        name: nameIn(plan.craft, finding.landerId),
        sentence: sentence(),
      };
    default:
      return null;
  }
};

const ofSorties = (plan: PlanSnapshot, { sorties }: SupplyGlance): readonly WatchItem[] =>
  sorties.flatMap((sortie): readonly WatchItem[] => {
    const { status } = sortie;
    if (status === "supplied") return [];
    return [
      {
        id: `sortie-${sortie.sortieKey}`,
        reason: status === "not stated" ? "needs not stated" : status,
        at: sortie.plannedAt,
        subject: { kind: "sortie", id: sortie.sortieId },
        name: sortie.name,
        sentence: sortieSentence(plan, sortie),
      },
    ];
  });

/** The sortie that suffers first when a flight leaves later than it must; null: none that hangs on it by itself. */
const firstToSuffer = (plan: PlanSnapshot, { slack }: Latest, flightId: string): string | null => {
  const rows = slack.flatMap((row) =>
    row.flightId === flightId && row.slackDays !== "any" ? [{ sortieId: row.sortieId, slackDays: row.slackDays }] : [],
  );
  const least = rows.toSorted((a, b) => a.slackDays - b.slackDays)[0];
  return least === undefined ? null : nameIn(plan.sorties, least.sortieId);
};

const ofDepartures = (
  plan: PlanSnapshot,
  latest: Latest,
  overdue: ReadonlySet<string>,
  withinDays: number,
): readonly WatchItem[] =>
  latest.latestDeparture.flatMap(({ flightId, at }): readonly WatchItem[] => {
    const flight = plan.flights.find(({ id }) => id === flightId);
    // One that should have left already is overdue, whatever it may slip.
    if (flight === undefined || at === null || overdue.has(flightId)) return [];
    if (at > plan.asOfAt + withinDays * DAY_MS) return [];
    const sufferer = firstToSuffer(plan, latest, flightId) ?? "a sortie";
    return [
      {
        id: `leave-${flight.key}`,
        reason: "must leave",
        at,
        subject: { kind: "flight", id: flightId },
        name: flight.name,
        sentence: `${flight.name} must leave by ${formatMinute(at)} (planned: ${formatDate(flight.departAt)}); later, ${sufferer} fares worse.`,
      },
    ];
  });

/**
 * The list, the earliest first. `latest`: latest departures of the full check; null: not worked out, and no flight that
 * must leave is in the list. `withinDays`: how far ahead a flight that must leave is told of. Pure.
 */
export const watchList = (
  plan: PlanSnapshot,
  glance: SupplyGlance,
  latest: Latest | null,
  withinDays = WATCH_DAYS,
): readonly WatchItem[] => {
  const overdue = new Set(glance.findings.flatMap((finding) => (finding.kind === "overdue" ? [finding.id] : [])));
  const items = [
    ...glance.findings.flatMap((finding) => ofFinding(plan, finding) ?? []),
    ...ofSorties(plan, glance),
    ...(latest === null ? [] : ofDepartures(plan, latest, overdue, withinDays)),
  ];
  return items.toSorted((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
};
