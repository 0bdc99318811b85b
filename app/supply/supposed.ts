/** What a person supposes of flights to see what would follow: as changes of the plan, and in words. Pure. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Change } from "../entity/entities.ts";
import type { Flight } from "../entity/flight.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { formatNumber } from "../format/number.ts";

export interface Supposed {
  /** It does not come at all. */
  readonly isLost: boolean;
  /** It goes and comes so many days later. */
  readonly slipDays: number;
  /** It carries this share of its planned load, 0 to 1. */
  readonly loadShare: number;
}

/** As planned. */
export const AS_PLANNED: Supposed = { isLost: false, slipDays: 0, loadShare: 1 };

export const isAsPlanned = ({ isLost, slipDays, loadShare }: Supposed): boolean =>
  !isLost && slipDays === 0 && loadShare === 1;

/** What can be supposed of a flight by its status: one that has left can only be late. */
export const canSuppose = ({ status }: Pick<Flight, "status">): { readonly late: boolean; readonly less: boolean } => ({
  late: status === "planned" || status === "firm" || status === "departed",
  less: status === "planned" || status === "firm",
});

/**
 * The flight as supposed. A lost one is left out of the plan (cancelled): nothing of it arrives, and what it would have
 * drawn at a depot stays there.
 */
const supposedFlight = (flight: Flight, { isLost, slipDays, loadShare }: Supposed): Flight => {
  const can = canSuppose(flight);
  const slipMs = can.late ? Math.round(slipDays * DAY_MS) : 0;
  const moved = {
    ...flight,
    departAt: flight.departAt + (can.less ? slipMs : 0),
    arriveAt: flight.arriveAt + slipMs,
  };
  if (!can.less) return moved;
  return {
    ...moved,
    loads: flight.loads.map((load) => ({ ...load, loadedKg: load.loadedKg * loadShare })),
    status: isLost ? "cancelled" : flight.status,
  };
};

/** Changes of the plan that stand for what is supposed, by the key of the flight: the same in every case that has it. */
export const supposedChanges = (
  plan: Pick<PlanSnapshot, "flights">,
  supposed: Readonly<Record<string, Supposed>>,
): readonly Change[] =>
  plan.flights.flatMap((flight): readonly Change[] => {
    const of = supposed[flight.key];
    if (of === undefined || isAsPlanned(of)) return [];
    return [{ op: "put", kind: "flight", value: supposedFlight(flight, of) }];
  });

const days = (count: number): string =>
  `${formatNumber(count, count % 1 === 0 ? 0 : 1)} ${count === 1 ? "day" : "days"}`;

/** "Drover 3 is lost; Packhorse 5 12 days late, with 60 % of its load". */
export const supposedWords = (
  plan: Pick<PlanSnapshot, "flights">,
  supposed: Readonly<Record<string, Supposed>>,
): string =>
  plan.flights
    .flatMap((flight) => {
      const of = supposed[flight.key];
      if (of === undefined || isAsPlanned(of)) return [];
      if (of.isLost) return [`${flight.name} lost`];
      const parts = [
        ...(of.slipDays === 0 ? [] : [`${days(of.slipDays)} late`]),
        ...(of.loadShare === 1 ? [] : [`with ${formatNumber(100 * of.loadShare, 0)} % of its load`]),
      ];
      return [`${flight.name} ${parts.join(", ")}`];
    })
    .join("; ");
