/** Tanks that run empty, and propellants that stand below their reserve, from when to when. */
import { timesBelow } from "../forecast/crossing.ts";
import { sumLevels, levelWithin } from "../forecast/curve.ts";
import { daysToEmpty } from "../storage/level.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { NOTHING_KG } from "../forecast/pool.ts";
import type { LevelSegment } from "../storage/segment.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { PlanFinding } from "./answer.ts";

/** Times at which a tank that held something holds nothing. */
const emptyTimes = (segments: readonly LevelSegment[]): readonly { fromAt: number; untilAt: number | null }[] => {
  const times: { fromAt: number; untilAt: number | null }[] = [];
  let hadSome = false;
  let isEmpty = false;
  for (const segment of segments) {
    if (segment.m0Kg > NOTHING_KG) {
      const last = times.at(-1);
      if (isEmpty && last !== undefined) last.untilAt = segment.startAt;
      hadSome = true;
      isEmpty = false;
    } else if (hadSome && !isEmpty) {
      times.push({ fromAt: segment.startAt, untilAt: null });
      isEmpty = true;
    }
    const end = levelWithin(segment, segment.endAt);
    if (isEmpty && end > NOTHING_KG) {
      const last = times.at(-1);
      if (last !== undefined) last.untilAt = segment.startAt;
      isEmpty = false;
    } else if (!isEmpty && hadSome && end <= NOTHING_KG) {
      const days = daysToEmpty(segment.m0Kg, segment.kPerDay, segment.cKgPerDay - segment.fKgPerDay);
      times.push({ fromAt: Math.min(segment.endAt, segment.startAt + (days ?? Infinity) * DAY_MS), untilAt: null });
      isEmpty = true;
    }
    if (end > NOTHING_KG) hadSome = true;
  }
  return times;
};

/** A tank of a depot is empty: found where it becomes so, not where it begins so. */
export const emptyTanks = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const ofDepots = new Set(plan.tanks.filter((tank) => tank.ownerKind === "depot").map((tank) => tank.id));
  return seen.levels.flatMap(({ tankId, segments }) =>
    ofDepots.has(tankId)
      ? emptyTimes(segments).map((time): PlanFinding => ({ kind: "tank empty", tankId, ...time }))
      : [],
  );
};

/** A propellant at a depot is below the reserve of its tanks together, by more than a gram. */
export const belowReserve = (plan: PlanSnapshot, seen: Forecast): readonly PlanFinding[] => {
  const levels = new Map(seen.levels.map((row) => [row.tankId, row.segments]));
  const pools = Map.groupBy(
    plan.tanks.filter((tank) => tank.ownerKind === "depot"),
    (tank) => JSON.stringify([tank.ownerId, tank.propellantId]),
  );
  return [...pools.values()].flatMap((tanks) => {
    const [first] = tanks;
    const reserveKg = tanks.reduce((sum, tank) => sum + tank.reserveKg, 0);
    if (first === undefined || reserveKg <= 0) return [];
    const stretches = sumLevels(tanks.map((tank) => levels.get(tank.id) ?? []));
    return timesBelow(stretches, reserveKg, 0.001).map((time): PlanFinding => ({
      kind: "below reserve",
      depotId: first.ownerId,
      propellantId: first.propellantId,
      ...time,
    }));
  });
};
