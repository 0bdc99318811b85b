/** The forecast of one plan case: every tank's level in closed form, and what every flight and sortie does. */
import { type TankTotals, balancesOf } from "./balance.ts";
import { compile } from "./compile.ts";
import type { CompiledPlan } from "./compiled-plan.ts";
import { byId } from "./draft.ts";
import type { Forecast } from "./outcome.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { createEngine } from "./propagate.ts";
import { readFlights } from "./read-flights.ts";
import { lostKg, massKg, recordedKg } from "./read-run.ts";
import { readSorties } from "./read-sorties.ts";
import type { Run } from "./run-state.ts";
import type { LevelHistory, LevelSegment } from "../storage/segment.ts";
import { type Trace, createTrace } from "./trace.ts";

const readLevels = (compiled: CompiledPlan, trace: Trace): readonly LevelHistory[] => {
  const segments: LevelSegment[][] = compiled.tankIds.map(() => []);
  trace.tank.forEach((tank, row) => {
    segments[tank]?.push({
      startAt: trace.startAt[row] ?? 0,
      endAt: trace.endAt[row] ?? 0,
      m0Kg: trace.m0[row] ?? 0,
      kPerDay: trace.k[row] ?? 0,
      cKgPerDay: trace.c[row] ?? 0,
      fKgPerDay: trace.f[row] ?? 0,
    });
  });
  return compiled.tankIds.map((tankId, tank) => ({ tankId, segments: segments[tank] ?? [] }));
};

/** The propellant of each tank: of its pool, or of the need or flight that names it. */
const propellantOfTank = (plan: PlanSnapshot, compiled: CompiledPlan): readonly string[] => {
  const rows = byId(plan.tanks);
  const made = new Map<number, string>();
  compiled.needTank.forEach((tank, need) => made.set(tank, compiled.needPropellantIds[need] ?? ""));
  return compiled.tankIds.map((id, tank) => rows.get(id)?.propellantId ?? made.get(tank) ?? "");
};

const readTanks = (run: Run, propellants: readonly string[]): readonly TankTotals[] =>
  run.plan.tankIds.map((_, tank) => ({
    propellantId: propellants[tank] ?? "",
    // A lander that is out has nothing in its tanks: what it carries is not in the forecast's books.
    openingKg: isOutTank(run, tank) ? 0 : (run.plan.tankOpeningKg[tank] ?? 0),
    recordedKg: recordedKg(run, tank),
    lostKg: lostKg(run, tank),
    closingKg: massKg(run, tank),
  }));

const isOutTank = (run: Run, tank: number): boolean => {
  const { needTank, sortieLineStart, sortieIsOut } = run.plan;
  return sortieIsOut.some((isOut, sortie) => {
    if (isOut === 0 || (run.plan.sortieLoadAt[sortie] ?? 0) > run.plan.asOfAt) return false;
    return needTank.subarray(sortieLineStart[sortie], sortieLineStart[sortie + 1]).includes(tank);
  });
};

export type { Forecast } from "./outcome.ts";

/** What the plan case says will happen, from the as-of instant to the horizon. Pure and deterministic. */
export const forecast = (plan: PlanSnapshot): Forecast => {
  const compiled = compile(plan);
  const engine = createEngine(compiled);
  const trace = createTrace(compiled);
  engine.run.trace = trace;
  const run = engine.go();
  const flights = readFlights(run, trace, byId(plan.flights));
  const sorties = readSorties(run, trace);
  const tanks = readTanks(run, propellantOfTank(plan, compiled));
  return {
    asOfAt: plan.asOfAt,
    horizonAt: plan.horizonAt,
    levels: readLevels(compiled, trace),
    flights,
    sorties,
    losses: compiled.tankIds.map((tankId, tank) => ({
      tankId,
      lostKg: lostKg(run, tank),
      closingKg: massKg(run, tank),
    })),
    balances: balancesOf(tanks, flights, sorties),
    cyclicFlightIds: compiled.cyclicFlightIds,
    compiled,
  };
};
