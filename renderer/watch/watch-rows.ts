/** Where a watched thing is shown, and how far off it is. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { WatchItem } from "../../app/supply/watch.ts";
import { formatNumber } from "../format/number.ts";
import type { TimeWindow, ViewId } from "../state/app-state.ts";

export interface Place {
  readonly view: ViewId;
  /** Its own; of a level the instant alone. */
  readonly stretch: TimeWindow;
}

/** The timeline, where the thing and the day are in sight. */
export const placeOf = (plan: PlanSnapshot, { subject, at }: WatchItem): Place => {
  const flight = subject.kind === "flight" ? plan.flights.find(({ id }) => id === subject.id) : undefined;
  const sortie = subject.kind === "sortie" ? plan.sorties.find(({ id }) => id === subject.id) : undefined;
  if (flight !== undefined)
    return { view: "timeline", stretch: { fromAt: flight.departAt, untilAt: Math.max(at, flight.arriveAt) } };
  if (sortie !== undefined) return { view: "timeline", stretch: { fromAt: sortie.loadAt, untilAt: sortie.returnAt } };
  return { view: "timeline", stretch: { fromAt: at, untilAt: at } };
};

/** "in 12 days", "today", "3 days ago": whole days between the as-of instant and an instant, never rounded up. */
export const daysOffWords = (at: number, asOfAt: number): string => {
  const days = Math.trunc((at - asOfAt) / DAY_MS);
  if (days === 0) return at < asOfAt ? "less than a day ago" : "within a day";
  const count = `${formatNumber(Math.abs(days))} ${Math.abs(days) === 1 ? "day" : "days"}`;
  return days < 0 ? `${count} ago` : `in ${count}`;
};
