/** The sortie sheet: load and return by propellant, leg by leg masses, engine use, checks. */
import type { Propellant } from "../entity/propellant.ts";
import { type EngineCount, mostUsed } from "./engine-use.ts";
import { checkStay } from "./check-stay.ts";
import { checkSheet, type SheetCheck } from "./checks.ts";
import type { Lander } from "../entity/lander.ts";
import { type Leg, legsOf } from "./leg.ts";
import type { Mission } from "../entity/profile.ts";
import type { OffPlane } from "./off-plane.ts";
import { byPropellant } from "./pools.ts";
import type { Solution } from "./solve.ts";
import { type StageSheet, stageSheets } from "./stage-sheet.ts";
import { type FlownProfile, solveOffPlane } from "./solve-off-plane.ts";

/** One propellant over the whole sortie, kg. */
export interface SheetLine {
  readonly propellantId: string;
  /** Aboard at departure. */
  readonly loadKg: number;
  /** Aboard at the end: residual, reserve and mixture allowance of what comes home. */
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
  /** Left in what was jettisoned and in stages that were dropped. */
  readonly leftBehindKg: number;
}

export interface SortieSheet {
  readonly lines: readonly SheetLine[];
  readonly legs: readonly Leg[];
  /** The lander's own stage first, then its further ones. */
  readonly stages: readonly StageSheet[];
  readonly startMassKg: number;
  readonly endMassKg: number;
  /** Sum of all loads, kg. */
  readonly loadKg: number;
  readonly totalDeltaVMPerS: number;
  /** What each engine of the lander's own stage does in one sortie that it begins new, by its number from 1. */
  readonly engines: readonly EngineCount[];
  /** Of the engine that is started most, and of the one that burns longest, of any stage. */
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

const lineOf = (
  solution: Solution,
  legs: readonly Leg[],
  { id, pools }: { readonly id: string; readonly pools: readonly number[] },
  p: number,
): SheetLine => {
  const { compiled, masses } = solution;
  const sumUp = (values: Float64Array, from: number, which = pools): number =>
    which.reduce((total, q) => total + (values[from + q] ?? 0), 0);
  const home = pools.filter((q) => compiled.stages[compiled.poolStages[q] ?? 0]?.partsAt === null);
  const sum = (value: (leg: Leg) => number): number => legs.reduce((total, leg) => total + value(leg), 0);
  return {
    propellantId: id,
    loadKg: sumUp(masses.stock, 0),
    returnKg: sumUp(masses.stock, compiled.steps.length * masses.n),
    residualKg: sumUp(compiled.residual, 0, home),
    reserveKg: sumUp(solution.reserve, 0, home),
    allowanceKg: sumUp(solution.allowance, 0, home),
    burnedKg: sum((leg) => leg.burnedKg[p] ?? 0),
    lostKg: sum((leg) => leg.lostKg[p] ?? 0),
    consumedKg: sum((leg) => leg.consumedKg[p] ?? 0),
    leftBehindKg: sum((leg) => leg.leftBehindKg[p] ?? 0),
  };
};

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
  const lines = byPropellant(solution.compiled.propellantIds).map((line, p) => lineOf(solution, legs, line, p));
  const sum = (value: (leg: Leg) => number): number => legs.reduce((total, leg) => total + value(leg), 0);
  const stages = stageSheets(steps, solution, legs);
  const checks = [
    ...checkSheet(lander, steps, solution, legs, stages, propellants),
    ...checkStay(lander, profile, mission, offPlane),
  ];
  return {
    lines,
    legs,
    stages,
    startMassKg:
      legs[0]?.massBeforeKg ?? (solution.compiled.hardware[0] ?? 0) + lines.reduce((t, l) => t + l.loadKg, 0),
    endMassKg:
      legs.at(-1)?.massAfterKg ?? (solution.compiled.hardware[0] ?? 0) + lines.reduce((t, l) => t + l.loadKg, 0),
    loadKg: lines.reduce((total, line) => total + line.loadKg, 0),
    totalDeltaVMPerS: sum((leg) => leg.deltaVMPerS),
    engines: stages[0]?.engines ?? [],
    ...mostUsed(stages.flatMap((stage) => stage.engines)),
    durationDays: sum((leg) => leg.days),
    offPlane,
    checks,
    findings: checks.filter((check) => !check.isMet),
    closure: solution.closure,
  };
};
