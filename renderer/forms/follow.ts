/** What of a new thing follows a choice made in its form: its name and its usual figures, as long as nobody typed others. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import type { Tank } from "../../app/entity/tank.ts";
import type { Flight } from "../../app/entity/flight.ts";
import type { Craft } from "../../app/entity/craft.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { ownerName } from "../names/entity-words.ts";
import { newName, newTankName, usualLoads } from "./fresh.ts";
import { filledFromVolume } from "./tank-volume.ts";

type Follower<E> = (plan: PlanSnapshot, before: E, after: E) => Partial<E>;

const tankNameOf = (plan: PlanSnapshot, { ownerId, propellantId }: Tank): string =>
  newTankName(ownerName(plan, ownerId), plan.propellants.find(({ id }) => id === propellantId)?.name ?? propellantId);

const densityOf = (plan: PlanSnapshot, { propellantId }: Tank): number =>
  plan.propellants.find(({ id }) => id === propellantId)?.densityKgPerM3 ?? 0;

const followTank: Follower<Tank> = (plan, before, after) => {
  const fillBefore = filledFromVolume(before, densityOf(plan, before)) ?? 0;
  const fill = filledFromVolume(after, densityOf(plan, after));
  const isFollowing = after.maximumFillKg === before.maximumFillKg && before.maximumFillKg === fillBefore;
  return {
    ...(after.name === before.name && before.name === tankNameOf(plan, before)
      ? { name: tankNameOf(plan, after) }
      : {}),
    ...(isFollowing && fill !== null ? { maximumFillKg: fill } : {}),
  };
};

const classOf = (plan: PlanSnapshot, craftId: string): Entity<"craftClass"> | undefined => {
  const classId = plan.craft.find(({ id }) => id === craftId)?.classId;
  return plan.craftClasses.find(({ id }) => id === classId);
};

const flightNameOf = (plan: PlanSnapshot, craftId: string): string =>
  newName(plan, "flight", classOf(plan, craftId)?.name ?? "Flight");

const followFlight: Follower<Flight> = (plan, before, after) => {
  const was = classOf(plan, before.craftId);
  const is = classOf(plan, after.craftId);
  if (was?.id === is?.id || is === undefined) return {};
  const isUsualTransit = before.arriveAt - before.departAt === Math.round((was?.tripDays ?? 7) * DAY_MS);
  const isUsualLoad = JSON.stringify(before.loads) === JSON.stringify(usualLoads(was));
  return {
    ...(before.name === flightNameOf(plan, before.craftId) ? { name: flightNameOf(plan, after.craftId) } : {}),
    ...(isUsualTransit ? { arriveAt: after.departAt + Math.round(is.tripDays * DAY_MS) } : {}),
    ...(before.berthDays === was?.berthDays ? { berthDays: is.berthDays } : {}),
    ...(isUsualLoad ? { loads: usualLoads(is) } : {}),
  };
};

const craftNameOf = (plan: PlanSnapshot, { classId }: Craft): string =>
  newName(plan, "craft", plan.craftClasses.find(({ id }) => id === classId)?.name ?? "Craft");

const followCraft: Follower<Craft> = (plan, before, after) =>
  after.name === before.name && before.name === craftNameOf(plan, before) ? { name: craftNameOf(plan, after) } : {};

const followers: { readonly [K in EntityKind]?: Follower<Entity<K>> } = {
  tank: followTank,
  flight: followFlight,
  craft: followCraft,
};

/** The thing with the patch, and with what follows from it. */
export const followed = <K extends EntityKind>(
  plan: PlanSnapshot,
  kind: K,
  before: Entity<K>,
  patch: Partial<Entity<K>>,
): Entity<K> => {
  const after = { ...before, ...patch };
  const follow = followers[kind];
  return follow === undefined ? after : { ...after, ...follow(plan, before, after) };
};
