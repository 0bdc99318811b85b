/** Which flights and sorties the timeline and its tables show; what is not shown still counts in every forecast and verdict. */
import type { Flight } from "../../app/entity/flight.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";

export interface PlanFilter {
  /** "planned"; null: any. */
  readonly status: string | null;
  /** The tanker or lander; null: any. */
  readonly craftId: string | null;
  /** Shown is what lies, by a part at least, between the two; null: no bound. */
  readonly fromAt: number | null;
  readonly untilAt: number | null;
}

export const NO_FILTER: PlanFilter = { status: null, craftId: null, fromAt: null, untilAt: null };

/** Whether it leaves anything out at all. */
export const isFiltering = ({ status, craftId, fromAt, untilAt }: PlanFilter): boolean =>
  status !== null || craftId !== null || fromAt !== null || untilAt !== null;

const passes = (filter: PlanFilter, status: string, craftId: string, fromAt: number, untilAt: number): boolean =>
  (filter.status === null || filter.status === status) &&
  (filter.craftId === null || filter.craftId === craftId) &&
  (filter.fromAt === null || untilAt >= filter.fromAt) &&
  (filter.untilAt === null || fromAt <= filter.untilAt);

export const showsFlight = (filter: PlanFilter, { status, craftId, departAt, arriveAt, berthDays }: Flight): boolean =>
  passes(filter, status, craftId, departAt, arriveAt + berthDays * DAY_MS);

export const showsSortie = (filter: PlanFilter, { status, landerId, loadAt, returnAt }: Sortie): boolean =>
  passes(filter, status, landerId, loadAt, returnAt);
