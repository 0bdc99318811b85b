/** Rules of a flight. */
import { causalRanks } from "../../forecast/causal-rank.ts";
import type { Entity, EntitySet } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import { keyIsTaken } from "./key-rule.ts";
import { type Rule, isAtMost, need, repeated } from "./rule.ts";

const datesInOrder: Rule<"flight"> = (flight) =>
  need(flight.departAt <= flight.arriveAt, "arriveAt", `${flight.name} arrives before it departs.`);

const goesSomewhere: Rule<"flight"> = (flight) =>
  need(
    flight.origin.kind !== "depot" || flight.origin.depotId !== flight.depotId,
    "depotId",
    `${flight.name} goes to the depot that it comes from.`,
  );

/** Before it leaves; what a flight really carried is as it is. */
const isPlan = (flight: Entity<"flight">) => flight.status === "planned" || flight.status === "firm";

const carriesWhatItCan: Rule<"flight"> = (flight, plan) => {
  const craft = findEntity(plan, "craft", flight.craftId);
  const craftClass = craft === null ? null : findEntity(plan, "craftClass", craft.classId);
  if (craftClass === null) return [];
  if (craftClass.role !== "tanker")
    return [{ property: "craftId", message: `${flight.name}: ${craft?.name} is not a tanker.` }];
  return flight.loads.flatMap((load, i) => {
    const carried = craftClass.propellants.find((line) => line.propellantId === load.propellantId);
    if (carried === undefined)
      return [
        {
          property: `loads.${i}.propellantId`,
          message: `${flight.name}: ${craftClass.name} does not carry ${load.propellantId}.`,
        },
      ];
    return need(
      !isPlan(flight) || isAtMost(load.loadedKg, carried.capacityKg),
      `loads.${i}.loadedKg`,
      `${flight.name}: ${craftClass.name} holds ${carried.capacityKg} kg of ${load.propellantId}, not ${load.loadedKg} kg.`,
    );
  });
};

const loadsOnce: Rule<"flight"> = (flight) =>
  repeated(flight.loads.map((load) => load.propellantId)).map((i) => ({
    property: `loads.${i}.propellantId`,
    message: `${flight.name}: this propellant is loaded twice.`,
  }));

const keyOnce: Rule<"flight"> = (flight, plan) =>
  need(
    !keyIsTaken(plan.flight, flight),
    "key",
    `There is a flight with the key ${flight.key} in this plan case already.`,
  );

const isHop = (flight: Entity<"flight">) =>
  flight.origin.kind === "depot" && flight.departAt === flight.arriveAt && flight.status !== "cancelled";

const hopsAt = (plan: EntitySet, flight: Entity<"flight">) =>
  plan.flight.flatMap((row) =>
    row.origin.kind === "depot" &&
    isHop(row) &&
    row.planCaseId === flight.planCaseId &&
    row.departAt === flight.departAt
      ? [{ flightId: row.id, at: row.departAt, fromDepotId: row.origin.depotId, toDepotId: row.depotId }]
      : [],
  );

const noCircle: Rule<"flight"> = (flight, plan) =>
  need(
    !isHop(flight) || !causalRanks(hopsAt(plan, flight)).cyclicFlightIds.includes(flight.id),
    "departAt",
    `${flight.name}: at one instant it passes propellant round in a circle of depots; nothing says which gives first. Give it a time of flight.`,
  );

export const flightRules: readonly Rule<"flight">[] = [
  datesInOrder,
  goesSomewhere,
  carriesWhatItCan,
  loadsOnce,
  keyOnce,
  noCircle,
];
