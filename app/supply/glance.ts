/** Statuses and findings of one forecast: what a drag frame shows. */
import { byId } from "../forecast/draft.ts";
import { unbalanced } from "../forecast/balance.ts";
import type { Forecast } from "../forecast/outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import { enginesDue, sheetFindings } from "./engine-findings.ts";
import { firstPossible } from "./first-possible.ts";
import { hullFindings } from "./hulls.ts";
import { landerLimits, landerOverlaps, surplusAboard } from "./lander-findings.ts";
import { belowReserve, emptyTanks } from "./level-findings.ts";
import { nearEqualNames } from "./near-equal-names.ts";
import { overflowFindings } from "./overflow.ts";
import { portConflicts } from "./port-conflicts.ts";
import type { PlanFinding, SortieSupply, SupplyGlance } from "./answer.ts";
import { sortieSupply } from "./sortie-supply.ts";
import { timeAwayFindings } from "./time-away.ts";
import { unusualLoads } from "./unusual-loads.ts";
import { unusedFlights } from "./unused-flights.ts";
import { verdictOf } from "./verdict.ts";

const sortiesOf = (plan: PlanSnapshot, seen: Forecast): readonly SortieSupply[] => {
  const rows = byId(plan.sorties);
  const engine = seen.sorties.some((row) => row.status === "short") ? createEngine(seen.compiled) : null;
  return seen.sorties.flatMap((row, index) => {
    const sortie = rows.get(row.sortieId);
    if (sortie === undefined || row.isOut) return [];
    const firstAt = engine !== null && row.status === "short" ? firstPossible(plan, seen, engine, index) : null;
    return [sortieSupply(sortie, row, firstAt)];
  });
};

/** Flights in a circle and dates that have passed. */
const datesOf = (seen: Forecast): readonly PlanFinding[] => [
  ...(seen.cyclicFlightIds.length > 0 ? [{ kind: "circular flights" as const, flightIds: seen.cyclicFlightIds }] : []),
  ...seen.compiled.overdueIds.map((id) => ({ kind: "overdue" as const, id, at: seen.asOfAt })),
];

/** Every sortie's status at its planned loading, everything the whole plan should be looked at for, and the verdict. Pure. */
export const glance = (plan: PlanSnapshot, seen: Forecast): SupplyGlance => {
  const sorties = sortiesOf(plan, seen);
  const findings = [
    ...unbalanced(seen.balances).map((row) => ({ kind: "does not balance" as const, ...row })),
    ...overflowFindings(plan, seen),
    ...portConflicts(plan, seen),
    ...hullFindings(plan, seen),
    ...emptyTanks(plan, seen),
    ...belowReserve(plan, seen),
    ...landerOverlaps(plan, seen),
    ...landerLimits(plan, seen),
    ...surplusAboard(seen),
    ...sheetFindings(plan, seen),
    ...enginesDue(plan, seen),
    ...timeAwayFindings(plan, seen),
    ...unusedFlights(plan, seen),
    ...datesOf(seen),
    ...(plan.farReadings ?? []).map((reading) => ({ kind: "far reading" as const, ...reading })),
    ...(plan.backdatedLosses ?? []).map((row) => ({
      kind: "backdated loss" as const,
      ...row,
      tankId: plan.lossPeriods.find(({ id }) => id === row.periodId)?.tankId ?? "",
    })),
    ...nearEqualNames(plan),
    ...unusualLoads(plan, seen),
  ];
  return { sorties, findings, verdict: verdictOf(plan, { sorties, findings }) };
};
