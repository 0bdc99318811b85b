/** What one stage does in a sortie: its load, what becomes of it, and what is asked of its engines. */
import { afterBurns, type EngineBurn, type EngineCount, mostUsed, newEngines } from "./engine-use.ts";
import type { Leg } from "./leg.ts";
import type { ProfileStep } from "../entity/profile.ts";
import type { Solution } from "./solve.ts";
import type { StageFate } from "./stage.ts";

/** One propellant in one stage, kg. */
export interface StageLine {
  readonly propellantId: string;
  readonly loadKg: number;
  /** Still in it when it parts, or at the end: residual, reserve and mixture allowance. */
  readonly leftKg: number;
}

export interface StageSheet {
  /** null: the lander's own. */
  readonly name: string | null;
  readonly dryKg: number;
  readonly fate: StageFate;
  /** In this step, counted from 0; null: it comes home. */
  readonly partsAt: number | null;
  readonly lines: readonly StageLine[];
  readonly loadKg: number;
  /** Of all that its engines burn, with margin and allowance. */
  readonly deltaVMPerS: number;
  /** What each engine does in one sortie that it begins new, by its number from 1. */
  readonly engines: readonly EngineCount[];
  /** Of the engine that is started most, and of the one that burns longest. */
  readonly ignitions: number;
  readonly burnSeconds: number;
}

/** What the legs of a sortie ask of the main engines of one stage, in order. */
export const engineBurns = (legs: readonly Leg[], stage: string | null = null): readonly EngineBurn[] =>
  legs.flatMap((leg) => (leg.engineBurn === null || leg.stage !== stage ? [] : [leg.engineBurn]));

/** One sheet a stage, the lander's own first. */
export const stageSheets = (
  steps: readonly ProfileStep[],
  { compiled, masses, reserve, allowance }: Solution,
  legs: readonly Leg[],
): readonly StageSheet[] =>
  compiled.stages.map(({ name, dryKg, engines, partsAt }, s): StageSheet => {
    const parting = partsAt === null ? undefined : steps[partsAt];
    const lines = compiled.propellantIds.flatMap((propellantId, p): StageLine[] =>
      compiled.poolStages[p] === s
        ? [
            {
              propellantId,
              loadKg: masses.stock[p] ?? 0,
              leftKg: (compiled.residual[p] ?? 0) + (reserve[p] ?? 0) + (allowance[p] ?? 0),
            },
          ]
        : [],
    );
    const used = engines ? afterBurns(engineBurns(legs, name), newEngines(engines.count), engines) : [];
    return {
      name,
      dryKg,
      fate: parting?.kind === "drop stage" ? parting.fate : "comes home",
      partsAt,
      lines,
      loadKg: lines.reduce((sum, { loadKg }) => sum + loadKg, 0),
      deltaVMPerS: legs.reduce((sum, leg) => (leg.engineBurn && leg.stage === name ? sum + leg.deltaVMPerS : sum), 0),
      engines: used,
      ...mostUsed(used),
    };
  });
