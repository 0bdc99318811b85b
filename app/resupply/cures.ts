/** The least single changes after which every sortie is held, each tried by a search of its own. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Cure, Unheld } from "./answer.ts";
import type { ResupplyAsked } from "./asked.ts";
import { classesAsked } from "./make-problem.ts";

/** Whether everything is held by some choice of flights. */
export type CanHold = (plan: PlanSnapshot, asked: ResupplyAsked) => boolean;

/** The least whole n from 1 to `most` at which it holds, by doubling and halving; null: none does. */
const leastWhole = (most: number, holds: (n: number) => boolean): number | null => {
  let low = 0;
  let high = 1;
  while (!holds(Math.min(high, most))) {
    if (high >= most) return null;
    low = high;
    high *= 2;
  }
  high = Math.min(high, most);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
};

const MAX_DAYS = 64;
/** Steps in which a larger tank is tried: a hundredth of what it holds. */
const TANK_STEPS = 100;

const laterSortie = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  [only, ...others]: readonly Unheld[],
  canHold: CanHold,
): readonly Cure[] => {
  if (only === undefined || others.length > 0) return [];
  const { sortieId } = only;
  const moved = (days: number): PlanSnapshot => ({
    ...plan,
    sorties: plan.sorties.map((row) =>
      row.id === sortieId
        ? { ...row, loadAt: row.loadAt + days * DAY_MS, returnAt: row.returnAt + days * DAY_MS }
        : row,
    ),
  });
  const loadAt = plan.sorties.find(({ id }) => id === sortieId)?.loadAt ?? 0;
  const most = Math.min(MAX_DAYS, Math.floor((plan.horizonAt - loadAt) / DAY_MS));
  const days = most < 1 ? null : leastWhole(most, (n) => canHold(moved(n), asked));
  return days === null ? [] : [{ kind: "later sortie", sortieId, days }];
};

const largerTank = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  unheld: readonly Unheld[],
  canHold: CanHold,
): readonly Cure[] => {
  const places = new Map<string, { depotId: string; propellantId: string }>();
  for (const { sortieId, propellantId } of unheld) {
    const depotId = plan.sorties.find(({ id }) => id === sortieId)?.depotId;
    if (depotId !== undefined && propellantId !== null)
      places.set(`${depotId}/${propellantId}`, { depotId, propellantId });
  }
  const [place, ...others] = places.values();
  if (place === undefined || others.length > 0) return [];
  const tanks = plan.tanks
    .filter(({ ownerId, propellantId }) => ownerId === place.depotId && propellantId === place.propellantId)
    .toSorted((a, b) => b.maximumFillKg - a.maximumFillKg);
  const [tank] = tanks;
  if (tank === undefined || tank.maximumFillKg <= 0) return [];
  const stepKg = tank.maximumFillKg / TANK_STEPS;
  const larger = (n: number): PlanSnapshot => ({
    ...plan,
    tanks: plan.tanks.map((row) => (row === tank ? { ...row, maximumFillKg: row.maximumFillKg + n * stepKg } : row)),
  });
  const steps = leastWhole(TANK_STEPS, (n) => canHold(larger(n), asked));
  return steps === null ? [] : [{ kind: "tank", ...place, massKg: Math.ceil(steps * stepKg) }];
};

const morePorts = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  depotIds: readonly string[],
  canHold: CanHold,
): readonly Cure[] =>
  depotIds.flatMap((depotId): readonly Cure[] => {
    const depot = plan.depots.find(({ id }) => id === depotId);
    if (depot === undefined) return [];
    const wider = {
      ...plan,
      depots: plan.depots.map((row) => (row === depot ? { ...row, ports: row.ports + 1 } : row)),
    };
    return canHold(wider, asked) ? [{ kind: "port", depotId, ports: depot.ports + 1 }] : [];
  });

const fleets = (plan: PlanSnapshot, asked: ResupplyAsked, canHold: CanHold): readonly Cure[] => {
  const classes = classesAsked(plan, asked);
  const withClass = (classId: string, over: { hulls?: number; turnaroundDays?: number }): ResupplyAsked => ({
    ...asked,
    classes: classes.map(({ row, hulls, turnaroundDays, costPerFlight, everyDays }) => ({
      classId: row.id,
      hulls,
      turnaroundDays,
      costPerFlight,
      everyDays,
      ...(row.id === classId ? over : {}),
    })),
  });
  return classes.flatMap(({ row, hulls, turnaroundDays }): readonly Cure[] => {
    if (hulls === null) return [];
    const isMore = canHold(plan, withClass(row.id, { hulls: hulls + 1 }));
    const shorter = leastWhole(Math.floor(turnaroundDays), (n) =>
      canHold(plan, withClass(row.id, { turnaroundDays: turnaroundDays - n })),
    );
    return [
      ...(isMore ? [{ kind: "hull" as const, classId: row.id, hulls: hulls + 1 }] : []),
      ...(turnaroundDays >= 1 && shorter !== null
        ? [{ kind: "turnaround" as const, classId: row.id, days: turnaroundDays - shorter }]
        : []),
    ];
  });
};

/** Cures of one kind after the other; none that was not tried and found to hold. */
export const curesOf = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  unheld: readonly Unheld[],
  canHold: CanHold,
): readonly Cure[] => {
  const depotIds = [
    ...new Set(unheld.flatMap(({ sortieId }) => plan.sorties.find(({ id }) => id === sortieId)?.depotId ?? [])),
  ];
  return [
    ...laterSortie(plan, asked, unheld, canHold),
    ...largerTank(plan, asked, unheld, canHold),
    ...morePorts(plan, asked, depotIds, canHold),
    ...fleets(plan, asked, canHold),
  ];
};
