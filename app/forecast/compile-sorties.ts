/** Sorties of a plan, as columns. Flown, stood down and cancelled ones are in the records or nowhere. */
import { topUpChilldownKg } from "../storage/top-up-chilldown.ts";
import type { Entity } from "../entity/entities.ts";
import { homeAt } from "../entity/sortie.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { type Windows, windowsOf } from "../entity/windows.ts";
import { type DemandPlan, demandLines } from "../sortie/plan-demand.ts";
import { keptShare } from "./compile-flights.ts";
import { carriage, type TankTable } from "./compile-tanks.ts";
import { byId, columns, sortedById } from "./draft.ts";
import { type PlanSnapshot, startOf } from "../entity/plan.ts";

/** One propellant that a sortie needs aboard, and what it brings home of it. kg */
export interface SortieNeed {
  readonly propellantId: string;
  readonly loadKg: number;
  readonly returnKg: number;
}

/** What a sortie needs, by class, statement or profile; lines of one propellant are summed, lines of nothing left out. */
export const sortieNeeds = (plan: DemandPlan, sortie: Entity<"sortie">): readonly SortieNeed[] => {
  const lines = demandLines(plan, sortie);
  const needs = new Map<string, SortieNeed>();
  for (const { propellantId, loadKg, returnKg } of lines) {
    const before = needs.get(propellantId);
    if (loadKg > 0)
      needs.set(propellantId, {
        propellantId,
        loadKg: loadKg + (before?.loadKg ?? 0),
        returnKg: Math.min(returnKg, loadKg) + (before?.returnKg ?? 0),
      });
  }
  return [...needs.values()];
};

/** What a sortie under way needed, and what else it left with. */
const needsUnderWay = (plan: PlanSnapshot, sortie: Entity<"sortie">): readonly SortieNeed[] => {
  const needs = sortieNeeds(plan, sortie);
  const others = (plan.leftWith ?? []).filter(
    (row) => row.sortieId === sortie.id && !needs.some(({ propellantId }) => propellantId === row.propellantId),
  );
  return [...needs, ...others.map(({ propellantId }) => ({ propellantId, loadKg: 0, returnKg: 0 }))];
};

/** A record of a loading that the run replays: what stands at its very beginning is, too. */
const isReplayed = (plan: PlanSnapshot, { loadAt }: Entity<"sortie">): boolean =>
  loadAt > startOf(plan) || (plan.replay !== undefined && loadAt === startOf(plan));

export const compileSorties = (plan: PlanSnapshot, tanks: TankTable) => {
  const classes = byId(plan.craftClasses);
  const fluids = new Map(plan.propellants.map(({ id, fluid }) => [id, fluid]));
  const craft = byId(plan.craft);
  const depots = byId(plan.depots);
  const campaigns = byId(plan.campaigns);
  const sorties = sortedById(plan.sorties)
    .filter(({ status, loadAt }) => status === "departed" || (status === "planned" && loadAt <= plan.horizonAt))
    .toSorted((a, b) => a.loadAt - b.loadAt);
  const column = columns("loadAt", "returnAt", "hold", "lander", "start", "isOut");
  const windows: (Windows | null)[] = [];
  const need = columns("pool", "tank", "load", "return", "surplus", "chill", "keep");
  const propellantIds: string[] = [];
  // Landers that are away by the records while something else is replayed.
  const away = plan.sorties.filter(
    (sortie) =>
      (sortie.status === "departed" && isReplayed(plan, sortie)) ||
      (sortie.status === "flown" && sortie.returnAt > startOf(plan)),
  );
  const landerIds = [...new Set([...sorties, ...away].map((sortie) => sortie.landerId))].toSorted();
  const landerIndex = new Map(landerIds.map((id, index) => [id, index]));
  const overdueIds: string[] = [];
  const leftKey = (sortieId: string, propellantId: string): string => JSON.stringify([sortieId, propellantId]);
  const leftWith = new Map((plan.leftWith ?? []).map((row) => [leftKey(row.sortieId, row.propellantId), row]));
  const leavingWith = new Map<string, readonly { readonly need: number; readonly givenKg: number }[]>();
  for (const sortie of sorties) {
    const isOut = sortie.status === "departed";
    const late = isOut ? 0 : Math.max(0, startOf(plan) - sortie.loadAt);
    const returnAt = isOut ? homeAt(sortie, plan.sorties) : sortie.returnAt;
    if ((isOut ? returnAt : sortie.loadAt) < plan.asOfAt) overdueIds.push(sortie.id);
    const depot = depots.get(sortie.depotId);
    column.loadAt.push(sortie.loadAt + late);
    column.returnAt.push(Math.max(returnAt + late, startOf(plan)));
    column.hold.push((campaigns.get(sortie.campaignId)?.holdLimitDays ?? 0) * DAY_MS);
    column.lander.push(landerIndex.get(sortie.landerId) ?? 0);
    windows.push(depot === undefined ? null : windowsOf(depot));
    column.start.push(propellantIds.length);
    column.isOut.push(isOut ? 1 : 0);
    const lander = craft.get(sortie.landerId);
    const isLeaving = isOut && isReplayed(plan, sortie);
    const leaving: { need: number; givenKg: number }[] = [];
    for (const wanted of isOut ? needsUnderWay(plan, sortie) : sortieNeeds(plan, sortie)) {
      const carried = carriage(classes, lander, wanted.propellantId);
      propellantIds.push(wanted.propellantId);
      need.pool.push(tanks.poolOf(sortie.depotId, wanted.propellantId));
      need.tank.push(tanks.landerTankOf(sortie.landerId, wanted.propellantId));
      need.load.push(wanted.loadKg);
      need.return.push(wanted.returnKg);
      const left = isOut ? leftWith.get(leftKey(sortie.id, wanted.propellantId)) : undefined;
      need.surplus.push(isLeaving ? 0 : Math.max(0, (left?.massKg ?? 0) - wanted.loadKg));
      if (isLeaving) leaving.push({ need: propellantIds.length - 1, givenKg: left?.givenKg ?? wanted.loadKg });
      need.chill.push(carried === undefined ? 0 : topUpChilldownKg(carried, fluids.get(wanted.propellantId) ?? null));
      need.keep.push(keptShare(carried?.lossFraction ?? 0));
    }
    if (isLeaving) leavingWith.set(sortie.id, leaving);
  }
  column.start.push(propellantIds.length);
  const trips = away.map((sortie) => ({
    lander: landerIndex.get(sortie.landerId) ?? 0,
    depotId: sortie.depotId,
    needs: leavingWith.get(sortie.id) ?? [],
    // All that is aboard of what it needs goes with it.
    tanks: needsUnderWay(plan, sortie).map((wanted) => tanks.landerTankOf(sortie.landerId, wanted.propellantId)),
    leavesAt: Math.max(sortie.loadAt, startOf(plan)),
    // One that is not back yet comes home as planned.
    backAt: sortie.status === "flown" ? sortie.returnAt : null,
  }));
  return { sorties, column, windows, need, propellantIds, landerIds, overdueIds, trips };
};
