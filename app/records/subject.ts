/** The flight, sortie or tank that a record speaks of, and its rows in all plan cases. */
import { PlanningError } from "../ground/failure.ts";
import type { Change, EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
import type { Tank } from "../entity/tank.ts";

const refused = (message: string, field: string) => new PlanningError("refused", message, field);

/** Throws "not found", or "refused" if its status is not one of those. */
export const flightIn = (entities: EntitySet, id: string, statuses: readonly Flight["status"][]): Flight => {
  const flight = findEntity(entities, "flight", id);
  if (flight === null) throw new PlanningError("not found", `There is no flight ${id}.`, "flightId");
  if (!statuses.includes(flight.status))
    throw refused(
      `${flight.name} is ${flight.status}; this can be recorded of a flight that is ${statuses.join(" or ")}.`,
      "flightId",
    );
  return flight;
};

/** Throws "not found", or "refused" if its status is not one of those. */
export const sortieIn = (entities: EntitySet, id: string, statuses: readonly Sortie["status"][]): Sortie => {
  const sortie = findEntity(entities, "sortie", id);
  if (sortie === null) throw new PlanningError("not found", `There is no sortie ${id}.`, "sortieId");
  if (!statuses.includes(sortie.status))
    throw refused(
      `${sortie.name} is ${sortie.status}; this can be recorded of a sortie that is ${statuses.join(" or ")}.`,
      "sortieId",
    );
  return sortie;
};

/** Throws "not found". */
export const tankIn = (entities: EntitySet, id: string, field: string): Tank => {
  const tank = findEntity(entities, "tank", id);
  if (tank === null) throw new PlanningError("not found", `There is no tank ${id}.`, field);
  return tank;
};

/** A tank of this owner. Throws "not found", "refused" if it belongs elsewhere. */
export const tankOf = (entities: EntitySet, id: string, ownerId: string, field: string): Tank => {
  const tank = tankIn(entities, id, field);
  if (tank.ownerId !== ownerId) throw refused(`${tank.name} is not a tank of ${ownerId}.`, field);
  return tank;
};

/** Puts the flight, as it really went, into every plan case that has it. */
export const flightEverywhere = (entities: EntitySet, key: string, follow: (row: Flight) => Flight): Change[] =>
  entities.flight.filter((row) => row.key === key).map((row) => ({ op: "put", kind: "flight", value: follow(row) }));

/** Puts the sortie, as it really went, into every plan case that has it. */
export const sortieEverywhere = (entities: EntitySet, key: string, follow: (row: Sortie) => Sortie): Change[] =>
  entities.sortie.filter((row) => row.key === key).map((row) => ({ op: "put", kind: "sortie", value: follow(row) }));

/** The plan without what belongs to a single case: records hold for all of them. */
export const recordedPlan = (entities: EntitySet): EntitySet => ({
  ...entities,
  lossPeriod: entities.lossPeriod.filter((period) => period.planCaseId === null),
});
