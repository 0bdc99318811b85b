/** One more flight of a tanker class with its usual load. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { freshFlight } from "../entity/flight.ts";
import { DAY_MS } from "../ground/quantity.ts";

type Tanker = Entity<"craftClass">;

const MINUTE_MS = 60_000;

/** An id that no row bears: the wanted one, lengthened until it is free. */
const freeId = (rows: readonly { readonly id: string }[], wanted: string): string => {
  const taken = new Set(rows.map(({ id }) => id));
  let id = wanted;
  while (taken.has(id)) id += "-";
  return id;
};

/** The plan with a hull of the class that nothing else uses, and its id: added flights fly it. */
export const withHull = (plan: PlanSnapshot, tanker: Tanker): { plan: PlanSnapshot; hullId: string } => {
  const hullId = freeId(plan.craft, `added-${tanker.id}`);
  const hull = { id: hullId, classId: tanker.id, name: tanker.name, note: "", engineChanges: [] };
  return { plan: { ...plan, craft: [...plan.craft, hull] }, hullId };
};

/**
 * How long before a loading the tanker must arrive, ms: 0 where it hands over at once; the longest metered handover, at
 * most the time at the port, where it is metered. In whole minutes, rounded up.
 */
export const handoverLeadMs = (tanker: Tanker): number => {
  const days = tanker.propellants.map(({ loadKg, rateKgPerDay }) =>
    rateKgPerDay === null ? 0 : Math.min(tanker.berthDays, loadKg / rateKgPerDay),
  );
  return Math.ceil((Math.max(0, ...days) * DAY_MS) / MINUTE_MS) * MINUTE_MS;
};

/** The flight: from the first source, with the class's usual load, arriving at `arriveAt`. */
export const usualFlight = (
  plan: PlanSnapshot,
  tanker: Tanker,
  hullId: string,
  depotId: string,
  arriveAt: number,
): Entity<"flight"> => {
  const id = freeId(plan.flights, `added-${String(plan.flights.length).padStart(6, "0")}`);
  return {
    id,
    planCaseId: plan.planCase.id,
    key: id,
    name: `One more ${tanker.name}`,
    craftId: hullId,
    origin: { kind: "source", sourceId: plan.sources[0]?.id ?? "ground" },
    depotId,
    departAt: arriveAt - Math.round(tanker.tripDays * DAY_MS),
    arriveAt,
    berthDays: tanker.berthDays,
    loads: tanker.propellants.flatMap(({ propellantId, loadKg }) =>
      loadKg > 0 ? [{ propellantId, loadedKg: loadKg }] : [],
    ),
    ...freshFlight,
  };
};
