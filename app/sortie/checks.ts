/** The checks of the sheet, each with its number, met or not. */
import type { Propellant } from "../entity/propellant.ts";
import { checkThrust, type ThrustCheck } from "./check-thrust.ts";
import type { StayCheck } from "./check-stay.ts";
import { checkVolume, type VolumeCheck } from "./check-volume.ts";
import type { Lander } from "../entity/lander.ts";
import type { Leg } from "./leg.ts";
import type { BurnStep, ProfileStep } from "../entity/profile.ts";
import type { Solution } from "./solve.ts";
import type { StageSheet } from "./stage-sheet.ts";
import { enginesOf } from "./stage.ts";

/** What one sortie uses up of what an engine is rated for. */
export interface EngineUseCheck {
  readonly kind: "ignitions" | "burn time";
  readonly isMet: boolean;
  readonly stepIndex: null;
  /** Whose engines; null: the lander's own. */
  readonly stage: string | null;
  /** Of the engine used most; starts, or seconds. */
  readonly used: number;
  /** null: not rated. */
  readonly rated: number | null;
}

/** How high a computed ascent is when its engines stop, against the ground that its coast must clear. */
export interface ClearanceCheck {
  readonly kind: "terrain clearance";
  readonly isMet: boolean;
  readonly stepIndex: number;
  readonly cutOffM: number;
  /** null: nobody has said what there is to clear. */
  readonly clearM: number | null;
}

export type SheetCheck = VolumeCheck | ThrustCheck | EngineUseCheck | StayCheck | ClearanceCheck;

const checkClearance = (step: BurnStep, leg: Leg): ClearanceCheck[] => {
  if (step.deltaV.kind !== "computed ascent" || leg.flown === null) return [];
  const cutOffM = leg.flown.turnHeightM;
  const clearM = step.deltaV.coastAboveKm === undefined ? null : step.deltaV.coastAboveKm * 1000;
  const isMet = clearM !== null && cutOffM >= clearM;
  return [{ kind: "terrain clearance", isMet, stepIndex: leg.stepIndex, cutOffM, clearM }];
};

const useCheck = (
  kind: EngineUseCheck["kind"],
  stage: string | null,
  used: number,
  rated: number | null,
): EngineUseCheck => ({
  kind,
  stage,
  isMet: rated === null || used <= rated,
  stepIndex: null,
  used,
  rated,
});

/** All checks in the order in which they are shown: volume, thrust, engine use. */
export const checkSheet = (
  lander: Lander,
  steps: readonly ProfileStep[],
  solution: Solution,
  legs: readonly Leg[],
  stages: readonly StageSheet[],
  propellants: readonly Pick<Propellant, "id" | "densityKgPerM3">[],
): SheetCheck[] => [
  ...checkVolume(steps, solution, propellants),
  ...legs.flatMap((leg) => {
    const step = steps[leg.stepIndex];
    return step?.kind === "burn"
      ? [...checkThrust(enginesOf(lander, step, leg.stepIndex), step, leg), ...checkClearance(step, leg)]
      : [];
  }),
  ...solution.compiled.stages.flatMap(({ name, engines }, s) => {
    const use = stages[s];
    return engines && use
      ? [
          useCheck("ignitions", name, use.ignitions, engines.ratedIgnitions),
          useCheck("burn time", name, use.burnSeconds, engines.ratedBurnSeconds),
        ]
      : [];
  }),
];
