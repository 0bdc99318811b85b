/** The sortie sheet: load and return by propellant, leg by leg masses, engine use, checks. */
import type { Propellant } from "../entity/propellant.ts";
import { afterBurns, type EngineBurn, type EngineCount, mostUsed, newEngines } from "./engine-use.ts";
import { checkStay } from "./check-stay.ts";
import { checkSheet, type SheetCheck } from "./checks.ts";
import type { Lander } from "../entity/lander.ts";
import { type Leg, legsOf } from "./leg.ts";
import type { Mission } from "../entity/profile.ts";
import type { OffPlane } from "./off-plane.ts";
import type { Solution } from "./solve.ts";
import { type FlownProfile, solveOffPlane } from "./solve-off-plane.ts";

/** One propellant over the whole sortie, kg. */
export interface SheetLine {
  readonly propellantId: string;
  /** Aboard at departure. */
  readonly loadKg: number;
  /** Aboard at the end: residual, reserve and mixture allowance. */
  readonly returnKg: number;
  readonly residualKg: number;
  readonly reserveKg: number;
  /** Loaded because the mixture ratio may be off; comes back if it is not. */
  readonly allowanceKg: number;
  readonly burnedKg: number;
  /** Lost aboard and in caches. */
  readonly lostKg: number;
  /** Taken by crew and fuel cells. */
  readonly consumedKg: number;
  /** Left in what was jettisoned. */
  readonly leftBehindKg: number;
}

export interface SortieSheet {
  readonly lines: readonly SheetLine[];
  readonly legs: readonly Leg[];
  readonly startMassKg: number;
  readonly endMassKg: number;
  /** Sum of all loads, kg. */
  readonly loadKg: number;
  readonly totalDeltaVMPerS: number;
  /** What each engine does in one sortie that it begins new, by its number from 1. */
  readonly engines: readonly EngineCount[];
  /** Of the engine that is started most, and of the one that burns longest. */
  readonly ignitions: number;
  readonly burnSeconds: number;
  readonly durationDays: number;
  /** What the landing site takes off the orbit's plane; null: no site is stated. */
  readonly offPlane: OffPlane | null;
  readonly checks: readonly SheetCheck[];
  /** Checks that are not met. */
  readonly findings: readonly SheetCheck[];
  /** Relative error of the forward run, below 1e-9. */
  readonly closure: number;
}

const lineOf = (solution: Solution, legs: readonly Leg[], p: number): SheetLine => {
  const { compiled, trace } = solution;
  const sum = (value: (leg: Leg) => number): number => legs.reduce((total, leg) => total + value(leg), 0);
  return {
    propellantId: compiled.propellantIds[p] ?? "",
    loadKg: trace.stock[p] ?? 0,
    returnKg: trace.stock[compiled.steps.length * trace.n + p] ?? 0,
    residualKg: compiled.residual[p] ?? 0,
    reserveKg: solution.reserve[p] ?? 0,
    allowanceKg: solution.allowance[p] ?? 0,
    burnedKg: sum((leg) => leg.burnedKg[p] ?? 0),
    lostKg: sum((leg) => leg.lostKg[p] ?? 0),
    consumedKg: sum((leg) => leg.consumedKg[p] ?? 0),
    leftBehindKg: sum((leg) => leg.leftBehindKg[p] ?? 0),
  };
};

/** What the legs of a sortie ask of the main engines, in order. */
export const engineBurns = (legs: readonly Leg[]): readonly EngineBurn[] =>
  legs.flatMap(({ engineBurn }) => (engineBurn === null ? [] : [engineBurn]));

/**
 * Computes the sheet of one sortie. `propellants` gives the densities by which tanks are filled. Throws "refused" with
 * the step's name for what cannot be meant or flown; what can be computed but must not be flown is a finding.
 */
export const sortieSheet = (
  lander: Lander,
  profile: FlownProfile,
  mission: Mission,
  propellants: readonly Pick<Propellant, "id" | "densityKgPerM3">[],
): SortieSheet => {
  const { steps, solution, offPlane } = solveOffPlane(lander, profile, mission);
  const legs = legsOf(lander, steps, solution);
  const lines = solution.compiled.propellantIds.map((_, p) => lineOf(solution, legs, p));
  const sum = (value: (leg: Leg) => number): number => legs.reduce((total, leg) => total + value(leg), 0);
  const engines = afterBurns(engineBurns(legs), newEngines(lander.engines.count), lander.engines);
  const use = mostUsed(engines);
  const checks = [
    ...checkSheet(lander, steps, solution, legs, use, propellants),
    ...checkStay(lander, profile, mission, offPlane),
  ];
  return {
    lines,
    legs,
    startMassKg:
      legs[0]?.massBeforeKg ?? (solution.compiled.hardware[0] ?? 0) + lines.reduce((t, l) => t + l.loadKg, 0),
    endMassKg:
      legs.at(-1)?.massAfterKg ?? (solution.compiled.hardware[0] ?? 0) + lines.reduce((t, l) => t + l.loadKg, 0),
    loadKg: lines.reduce((total, line) => total + line.loadKg, 0),
    totalDeltaVMPerS: sum((leg) => leg.deltaVMPerS),
    engines,
    ...use,
    durationDays: sum((leg) => leg.days),
    offPlane,
    checks,
    findings: checks.filter((check) => !check.isMet),
    closure: solution.closure,
  };
};
