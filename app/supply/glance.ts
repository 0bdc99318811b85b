/** Statuses and findings of one forecast: what a drag frame shows. */
import { byId } from "../forecast/draft.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../forecast/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import { enginesDue, sheetFindings } from "./engine-findings.ts";
import { firstPossible } from "./first-possible.ts";
import { landerLimits, landerOverlaps } from "./lander-findings.ts";
import { belowReserve, emptyTanks } from "./level-findings.ts";
import { overflowFindings } from "./overflow.ts";
import { portConflicts } from "./port-conflicts.ts";
import type { PlanFinding, SortieSupply, SupplyGlance } from "./report.ts";
import { sortieSupply } from "./sortie-supply.ts";
import { unusedFlights } from "./unused-flights.ts";

const sortiesOf = (plan: PlanSnapshot, seen: Forecast): readonly SortieSupply[] => {
  const rows = byId(plan.sorties);
  const engine = seen.sorties.some((row) => row.status === "short") ? createEngine(seen.compiled) : null;
  return seen.sorties.flatMap((row, index) => {
    const sortie = rows.get(row.sortieId);
    if (sortie === undefined || row.isOut) return [];
    const firstAt = engine !== null && row.status === "short" ? firstPossible(engine, index) : null;
    return [sortieSupply(sortie, row, firstAt)];
  });
};

/** Flights in a circle and dates that have passed. */
const datesOf = (seen: Forecast): readonly PlanFinding[] => [
  ...(seen.cyclicFlightIds.length > 0 ? [{ kind: "circular flights" as const, flightIds: seen.cyclicFlightIds }] : []),
  ...seen.compiled.overdueIds.map((id) => ({ kind: "overdue" as const, id, at: seen.asOfAt })),
];

/** Every sortie's status at its planned loading and everything the whole plan should be looked at for. Pure. */
export const glance = (plan: PlanSnapshot, seen: Forecast): SupplyGlance => ({
  sorties: sortiesOf(plan, seen),
  findings: [
    ...overflowFindings(plan, seen),
    ...portConflicts(plan, seen),
    ...emptyTanks(plan, seen),
    ...belowReserve(plan, seen),
    ...landerOverlaps(plan, seen),
    ...landerLimits(plan, seen),
    ...sheetFindings(plan, seen),
    ...enginesDue(plan, seen),
    ...unusedFlights(plan, seen),
    ...datesOf(seen),
  ],
});
