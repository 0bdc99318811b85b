/** A first description of a lander, from what its class carries: to be corrected, field by field. */
import type { Entity } from "../../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Lander } from "../../../app/entity/lander.ts";

/** Null where the class carries fewer than two propellants: an engine needs an oxidiser and a fuel. */
export const firstDescription = (craftClass: Entity<"craftClass">, plan: PlanSnapshot): Lander | null => {
  const carried = craftClass.propellants.flatMap((line) => {
    const propellant = plan.propellants.find(({ id }) => id === line.propellantId);
    return propellant === undefined ? [] : [{ line, propellant }];
  });
  const oxidiser = carried.find(({ propellant }) => propellant.fluid === "O2") ?? carried[0];
  const fuel = carried.find(({ propellant }) => propellant !== oxidiser?.propellant && propellant.fluid !== null);
  const other = carried.find((entry) => entry !== oxidiser);
  const burned = fuel ?? other;
  if (oxidiser === undefined || burned === undefined) return null;
  return {
    dryKg: 10_000,
    engines: {
      count: 2,
      thrustN: 100_000,
      ispFullS: burned.propellant.fluid === "H2" ? 450 : 340,
      ispMinimumS: burned.propellant.fluid === "H2" ? 440 : 330,
      minimumThrottle: 0.2,
      mixtureRatio: burned.propellant.fluid === "H2" ? 6 : 3.5,
      mixtureSpreadPercent: 1,
      oxidiserId: oxidiser.propellant.id,
      fuelId: burned.propellant.id,
      ratedIgnitions: null,
      ratedBurnSeconds: null,
    },
    thrusters: [],
    tanks: carried.map(({ line, propellant }) => ({
      propellantId: propellant.id,
      volumeM3: Number(Math.max(0.001, line.capacityKg / propellant.densityKgPerM3 / 0.95).toPrecision(4)),
      ullagePercent: 5,
      residualKg: 0,
      kPerDay: line.kPerDay,
      cKgPerDay: line.cKgPerDay,
    })),
    fuelCells: [],
    crew: [],
    personKg: 160,
    cargoLimitKg: null,
  };
};
