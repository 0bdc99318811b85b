/** Tanks, pools and rate changes of a plan, as columns. */
import type { Entity } from "../entity/entities.ts";
import { byId, columns, sortedById } from "./draft.ts";
import { type LossRate, NO_LOSS, ratePieces } from "../storage/loss-rate.ts";
import { type PlanSnapshot, startOf } from "../entity/plan.ts";

/** The tank id of a lander's stock that has no tank row. */
export const madeUpTankId = (craftId: string, propellantId: string): string => `${craftId}:${propellantId}`;

/** Where tanks and pools stand, for the rest of the compilation. */
export interface TankTable {
  readonly ids: string[];
  readonly tank: ReturnType<typeof tankColumns>;
  readonly rate: ReturnType<typeof rateColumns>;
  readonly poolKeys: { depotId: string; propellantId: string }[];
  readonly poolTanks: number[][];
  /** The pool of a propellant at a depot; made empty where there is no tank. */
  poolOf(depotId: string, propellantId: string): number;
  /** The lander's tank; made up from its class where it has none. */
  landerTankOf(craftId: string, propellantId: string): number;
}

const tankColumns = () => columns("maximum", "heel", "reserve", "rank", "opening", "k", "c", "pool");
const rateColumns = () => columns("at", "tank", "k", "c");

/** What one craft does with one propellant; undefined: its class does not carry it. */
export const carriage = (
  classes: ReadonlyMap<string, Entity<"craftClass">>,
  craft: Entity<"craft"> | undefined,
  propellantId: string,
) =>
  craft === undefined
    ? undefined
    : classes.get(craft.classId)?.propellants.find((line) => line.propellantId === propellantId);

export const compileTanks = (plan: PlanSnapshot): TankTable => {
  const classes = byId(plan.craftClasses);
  const craft = byId(plan.craft);
  const opening = new Map(plan.opening.map((level) => [level.tankId, level.massKg]));
  const periods = Map.groupBy(plan.lossPeriods, (period) => period.tankId);
  const ids: string[] = [];
  const tank = tankColumns();
  const rate = rateColumns();
  const poolKeys: { depotId: string; propellantId: string }[] = [];
  const poolTanks: number[][] = [];
  const pools = new Map<string, Map<string, number>>();
  const landerTanks = new Map<string, number>();

  const poolOf = (depotId: string, propellantId: string): number => {
    let ofDepot = pools.get(depotId);
    if (ofDepot === undefined) {
      ofDepot = new Map();
      pools.set(depotId, ofDepot);
    }
    const known = ofDepot.get(propellantId);
    if (known !== undefined) return known;
    const pool = poolKeys.push({ depotId, propellantId }) - 1;
    poolTanks.push([]);
    ofDepot.set(propellantId, pool);
    return pool;
  };

  const add = (
    row: Pick<Entity<"tank">, "id" | "maximumFillKg" | "heelKg" | "reserveKg" | "rank">,
    pool: number,
    fallback: LossRate,
  ) => {
    const index = ids.push(row.id) - 1;
    const pieces = ratePieces(periods.get(row.id) ?? [], startOf(plan), plan.horizonAt, fallback);
    tank.maximum.push(row.maximumFillKg);
    tank.heel.push(row.heelKg);
    tank.reserve.push(row.reserveKg);
    tank.rank.push(row.rank ?? -1);
    tank.opening.push(opening.get(row.id) ?? 0);
    tank.k.push(pieces[0]?.kPerDay ?? 0);
    tank.c.push(pieces[0]?.cKgPerDay ?? 0);
    tank.pool.push(pool);
    poolTanks[pool]?.push(index);
    for (const piece of pieces.slice(1)) {
      rate.at.push(piece.fromAt);
      rate.tank.push(index);
      rate.k.push(piece.kPerDay);
      rate.c.push(piece.cKgPerDay);
    }
    return index;
  };

  for (const row of sortedById(plan.tanks)) {
    if (row.ownerKind === "depot") add(row, poolOf(row.ownerId, row.propellantId), NO_LOSS);
    else {
      const docked = carriage(classes, craft.get(row.ownerId), row.propellantId) ?? NO_LOSS;
      landerTanks.set(madeUpTankId(row.ownerId, row.propellantId), add(row, -1, docked));
    }
  }

  const landerTankOf = (craftId: string, propellantId: string): number => {
    const id = madeUpTankId(craftId, propellantId);
    const known = landerTanks.get(id);
    if (known !== undefined) return known;
    const line = carriage(classes, craft.get(craftId), propellantId);
    const row = { id, maximumFillKg: line?.capacityKg ?? 0, heelKg: 0, reserveKg: 0, rank: null };
    const index = add(row, -1, line ?? NO_LOSS);
    landerTanks.set(id, index);
    return index;
  };
  return { ids, tank, rate, poolKeys, poolTanks, poolOf, landerTankOf };
};
