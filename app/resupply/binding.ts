/** Which limits bind where not everything can be held: each lifted alone, and looked whether everything holds then. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Binding, Unheld } from "./answer.ts";
import type { ResupplyAsked } from "./asked.ts";
import type { CanHold } from "./cures.ts";
import { classesAsked } from "./make-problem.ts";

/** As many as anybody could want. */
const PLENTY = 20;
/** Instants that are tried where windows do not count, at most. */
const MAX_INSTANTS = 400;

interface Lifted {
  readonly binding: Binding;
  readonly plan: PlanSnapshot;
  readonly asked: ResupplyAsked;
}

/** Every limit that is there, with the question without it. */
const lifted = (plan: PlanSnapshot, asked: ResupplyAsked, unheld: readonly Unheld[]): readonly Lifted[] => {
  const depotIds = [
    ...new Set(unheld.flatMap(({ sortieId }) => plan.sorties.find(({ id }) => id === sortieId)?.depotId ?? [])),
  ];
  const classes = classesAsked(plan, asked);
  const withClass = (
    classId: string,
    over: { hulls?: null; turnaroundDays?: number; everyDays?: null },
  ): ResupplyAsked => ({
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
  const days = (plan.horizonAt - plan.asOfAt) / DAY_MS;
  const found: Lifted[] = [];
  if (asked.mostFlights !== null)
    found.push({ binding: { kind: "flights", ownerId: null }, plan, asked: { ...asked, mostFlights: null } });
  if (asked.budget !== null)
    found.push({ binding: { kind: "budget", ownerId: null }, plan, asked: { ...asked, budget: null } });
  if (asked.blackouts.length > 0)
    found.push({ binding: { kind: "blackouts", ownerId: null }, plan, asked: { ...asked, blackouts: [] } });
  const every = { kind: "every" as const, days: Math.max(1, days / MAX_INSTANTS) };
  found.push({
    binding: { kind: "windows", ownerId: null },
    plan,
    asked: { ...asked, arrivals: every, isBeforeLoadings: true },
  });
  for (const depotId of depotIds) {
    const ports = plan.depots.map((row) => (row.id === depotId ? { ...row, ports: PLENTY } : row));
    found.push({ binding: { kind: "ports", ownerId: depotId }, plan: { ...plan, depots: ports }, asked });
    const tanks = plan.tanks.map((row) =>
      row.ownerId === depotId ? { ...row, maximumFillKg: row.maximumFillKg * PLENTY } : row,
    );
    found.push({ binding: { kind: "tank room", ownerId: depotId }, plan: { ...plan, tanks }, asked });
  }
  for (const { row, hulls, turnaroundDays, everyDays } of classes) {
    if (everyDays !== null)
      found.push({
        binding: { kind: "cadence", ownerId: row.id },
        plan,
        asked: withClass(row.id, { everyDays: null }),
      });
    if (hulls === null) continue;
    found.push({ binding: { kind: "hulls", ownerId: row.id }, plan, asked: withClass(row.id, { hulls: null }) });
    if (turnaroundDays > 0)
      found.push({
        binding: { kind: "turnaround", ownerId: row.id },
        plan,
        asked: withClass(row.id, { turnaroundDays: 0 }),
      });
  }
  return found;
};

/** The limits that, lifted alone, let everything hold; none that was not tried. */
export const bindingOf = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  unheld: readonly Unheld[],
  canHold: CanHold,
): readonly Binding[] =>
  unheld.some(({ why }) => why === "lander away")
    ? []
    : lifted(plan, asked, unheld).flatMap((row) => (canHold(row.plan, row.asked) ? [row.binding] : []));
